import { QuantityField, type QuantityFieldProps } from "./quantity-field.tsx";
import type { Range } from "./quantity-typed.ts";

/** One number of a form: what it is called, asked as and bounded by. */
export interface NumberField<Name extends string>
  extends Pick<QuantityFieldProps, "field" | "label" | "dimension" | "usualUnit" | "plain" | "digits" | "placeholder"> {
  readonly name: Name;
  readonly range: Range;
  /** What undo calls a change of it. */
  readonly change: string;
  /** It may be left out: an emptied field is `null`. */
  readonly optional?: true;
}

/** The numbers of a form, in order. */
export function NumberFields<Name extends string>({
  fields,
  values,
  onChange,
}: {
  readonly fields: readonly NumberField<Name>[];
  readonly values: Readonly<Partial<Record<Name, number | null>>>;
  readonly onChange: (name: Name, value: number | null, change: string) => void;
}) {
  return fields.map(({ name, change, optional, ...field }) => (
    <QuantityField
      key={name}
      {...field}
      value={values[name] ?? null}
      onChange={(value) => onChange(name, value, change)}
      {...(optional ? { onEmpty: () => onChange(name, null, change) } : {})}
    />
  ));
}
