import { placeText } from "../../../figure/index.ts";
import { Button } from "../../controls/button.tsx";
import { placeTyped } from "../place-typed.ts";
import type { Of } from "./framed.tsx";
import { Typed } from "./typed.tsx";

/** A latitude or a longitude, typed in degrees or minutes, or taken from where the device is. */
export function PlaceField(props: Of<"place">) {
  const { field, value, onChange } = props;
  const read = (text: string): number | null | string => {
    if (text.trim() === "") return null;
    const degrees = placeTyped(text, field.axis);
    if (degrees === null)
      return `${field.label}: "${text.trim()}"; degrees such as ${field.axis === "latitude" ? "10° 30.25′ N" : "20° 15.3′ W"} or -20.25 are expected`;
    return degrees >= field.bounds.least! && degrees <= field.bounds.most!
      ? degrees
      : `${field.label}: "${text.trim()}"; ${field.bounds.expected}`;
  };
  const here =
    "geolocation" in navigator ? (
      <Button
        aria-label={`Here: ${field.label} where this device is now`}
        onClick={() =>
          navigator.geolocation.getCurrentPosition(
            ({ coords }) => onChange(Number(coords[field.axis].toFixed(6))),
            (error) => props.onWrong(`${field.label}: ${error.message || "this device gives no position"}`),
            { enableHighAccuracy: true, timeout: 15_000 },
          )
        }
      >
        Here
      </Button>
    ) : undefined;
  return (
    <Typed
      {...props}
      shown={typeof value === "number" ? String(value) : ""}
      unit=""
      read={read}
      beside={here}
      {...(typeof value === "number" ? { below: placeText(value, field.axis) } : {})}
    />
  );
}
