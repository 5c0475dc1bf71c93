import { encode } from "uqr";

/** Dark on light, whatever the terminal's own colours: SGR 30 black, 107 bright white. @source ECMA-48, 8.3.117 (recalled) */
const INK = "\u001b[30;107m";
const PLAIN = "\u001b[0m";
/** Light modules around the code. @source ISO/IEC 18004:2015, 6.3.8 (recalled) */
const QUIET = 4;

/** The QR code of a text for a terminal, two rows of it in each line. */
export function addressCode(text: string): string {
  const { data } = encode(text, { ecc: "M", border: QUIET });
  const lines: string[] = [];
  for (let y = 0; y < data.length; y += 2) {
    const cells = data[y]!.map((top, x) => half(top, data[y + 1]?.[x] ?? false));
    lines.push(`${INK}${cells.join("")}${PLAIN}`);
  }
  return `${lines.join("\n")}\n`;
}

const half = (top: boolean, bottom: boolean): string => (top ? (bottom ? "█" : "▀") : bottom ? "▄" : " ");
