import { useId } from "react";
import type { PageContent } from "../../publish/index.ts";
import {
  type ChoiceName,
  choicesOf,
  NO_LINE,
  OWN_BOAT,
  picked,
  QUANTITIES,
  type QuantityName,
  shownText,
  systemOf,
  type Typed,
} from "./fields.ts";

export interface FormProps {
  readonly content: PageContent;
  readonly typed: Typed;
  readonly wrong: Readonly<Partial<Record<QuantityName, string>>>;
  readonly onChange: (part: Typed) => void;
}

/** What the viewer puts in, in units of their choice. */
export function Form(props: FormProps) {
  const { content, typed, onChange } = props;
  const quantity = (name: QuantityName) => <Quantity key={name} {...props} name={name} />;
  const choice = (name: ChoiceName, label: string) => <Pick key={name} {...props} name={name} label={label} />;
  const line = (name: "chain" | "rope") => picked(content, typed, name) !== NO_LINE;
  const { holding } = content;
  return (
    <form className="form panel" onSubmit={(event) => event.preventDefault()}>
      <h2>Your boat and your water</h2>
      <fieldset className="units">
        <legend>Units shown</legend>
        {(["metric", "us"] as const).map((system) => (
          <label key={system}>
            <input
              type="radio"
              name="units"
              checked={systemOf(content, typed) === system}
              onChange={() => onChange({ units: system })}
            />
            {system === "metric" ? "metres and newtons" : "feet and pounds"}
          </label>
        ))}
      </fieldset>
      <p className="quiet">Any unit may be typed: 8 m, 26 ft, 105' 6", 20 kn, 15 kg.</p>
      {content.setups.length > 1 && choice("setup", "the tester's pull")}
      {quantity("depth")}
      {quantity("roller")}
      {choice("chain", "chain next to the anchor")}
      {line("chain") && quantity("chainLength")}
      {choice("rope", "rope between the chain and the bow")}
      {line("rope") && quantity("ropeLength")}
      {content.boats.length > 0 && choice("boat", "boat")}
      {picked(content, typed, "boat") === OWN_BOAT && (["length", "beam", "freeboard", "mast"] as const).map(quantity)}
      {quantity("wind")}
      {holding !== null && holding.anchors.length > 1 && choice("anchor", "anchor")}
      {holding?.hasMass && quantity("mass")}
      {holding !== null && holding.draws.seabeds.length > 1 && choice("seabed", "seabed")}
    </form>
  );
}

function Quantity({ content, typed, wrong, onChange, name }: FormProps & { readonly name: QuantityName }) {
  const id = useId();
  const line = wrong[name];
  return (
    <div className="field">
      <label htmlFor={id}>{QUANTITIES[name].label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        value={shownText(content, typed, name)}
        aria-invalid={line !== undefined}
        aria-describedby={line === undefined ? undefined : `${id}-wrong`}
        onChange={(event) => onChange({ [name]: event.target.value })}
      />
      {line !== undefined && (
        <p className="wrong" id={`${id}-wrong`} role="alert">
          {line}
        </p>
      )}
    </div>
  );
}

function Pick({
  content,
  typed,
  onChange,
  name,
  label,
}: FormProps & { readonly name: ChoiceName; readonly label: string }) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={picked(content, typed, name)}
        onChange={(event) => onChange({ [name]: event.target.value })}
      >
        {choicesOf(content, name).map((option) => (
          <option key={option} value={option}>
            {option}
          </option>
        ))}
      </select>
    </div>
  );
}
