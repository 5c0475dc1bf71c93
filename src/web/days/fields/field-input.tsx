import { BoatFileField } from "./boat-file-field.tsx";
import { ChoiceField } from "./choice-field.tsx";
import { DateField } from "./date-field.tsx";
import type { FieldProps, Of } from "./framed.tsx";
import { NumberField } from "./number-field.tsx";
import { PlaceField } from "./place-field.tsx";
import { QuantityOfRecord } from "./quantity-of-record.tsx";
import { ReferField } from "./refer-field.tsx";
import { ResultField } from "./result-field.tsx";
import { RigField } from "./rig-field.tsx";
import { StepsField } from "./steps-field.tsx";
import { TextField } from "./text-field.tsx";

/** One field of a form, as its kind is told. */
export function FieldInput(props: FieldProps) {
  const { field } = props;
  switch (field.as) {
    case "quantity":
      return <QuantityOfRecord {...(props as Of<"quantity">)} />;
    case "number":
      return <NumberField {...(props as Of<"number">)} />;
    case "place":
      return <PlaceField {...(props as Of<"place">)} />;
    case "choice":
      return <ChoiceField {...(props as Of<"choice">)} />;
    case "refer":
      return <ReferField {...(props as Of<"refer">)} />;
    case "steps":
      return <StepsField {...props} />;
    case "result":
      return <ResultField {...props} />;
    case "rig":
      return <RigField {...props} />;
    case "boatFile":
      return <BoatFileField {...props} />;
    case "date":
      return <DateField {...props} type="date" />;
    case "moment":
      return <DateField {...props} type="datetime-local" />;
    default:
      return <TextField {...(props as Of<"text">)} />;
  }
}
