/** SVG as text: elements, numbers to three decimals, and text that cannot break out of its place. */

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/**
 * A number as SVG shows it: three decimals at most, so that a drawing is the same on every machine.
 * @throws RangeError for NaN or an infinity: a fault of the program, not of its user
 */
export function num(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`no place in a drawing: ${value}`);
  const rounded = Math.round(value * 1000) / 1000;
  return String(rounded === 0 ? 0 : rounded);
}

const SPECIAL: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text made safe inside an element or a quoted attribute, of SVG and of HTML alike; control characters are left out. */
export function escaped(text: string): string {
  let safe = "";
  for (const character of text) {
    const code = character.codePointAt(0)!;
    const printable =
      code >= 0x20 ? code !== 0x7f && !(code >= 0xd800 && code <= 0xdfff) && code < 0xfffe : code === 10;
    if (printable) safe += SPECIAL[character] ?? character;
  }
  return safe;
}

/** An element; children are SVG already, attributes are plain text or numbers. */
export function tag(name: string, attributes: Attributes, ...children: readonly string[]): string {
  let open = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    open += ` ${key}="${typeof value === "number" ? num(value) : escaped(value)}"`;
  }
  return children.length === 0 ? `${open}/>` : `${open}>${children.join("")}</${name}>`;
}

/** A path through places, as the `d` attribute; `closed` returns to the first. */
export function through(x: ArrayLike<number>, y: ArrayLike<number>, closed = false): string {
  let d = "";
  for (let i = 0; i < x.length; i++) d += `${i === 0 ? "M" : "L"}${num(x[i]!)} ${num(y[i]!)}`;
  return closed ? `${d}Z` : d;
}
