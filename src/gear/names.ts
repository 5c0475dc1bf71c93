/** Names of the trade for one thing, and the one the catalogue keeps. */
const FIBRES: Readonly<Record<string, string>> = { polyamide: "polyamide", nylon: "polyamide", polyester: "polyester" };
const LAYS: Readonly<Record<string, string>> = {
  "three-strand": "three-strand",
  "3-strand": "three-strand",
  laid: "three-strand",
  "double-braid": "double-braid",
  braid: "double-braid",
  braided: "double-braid",
};
const METALS: Readonly<Record<string, string>> = {
  stainless: "stainless",
  galvanised: "galvanised",
  galvanized: "galvanised",
};

export function fibreNamed(text: string): string {
  return known(FIBRES, text);
}

export function layNamed(text: string): string {
  return known(LAYS, text);
}

export function metalNamed(text: string): string {
  return known(METALS, text);
}

/** "1 × 19", "1X19" and "1x19" are one construction. */
export function constructionNamed(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/\s*[x×]\s*/, "x");
}

/** "30", "G30" and "grade 30" are one grade. */
export function gradeNamed(text: string | number): string {
  return String(text)
    .trim()
    .replace(/^(grade|g)\s*/i, "");
}

export function pointNamed(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, " ");
}

/** Names the catalogue does not know are kept as they are: a user's own fibre is a fibre. */
function known(names: Readonly<Record<string, string>>, text: string): string {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, "-");
  return Object.hasOwn(names, plain) ? names[plain]! : plain;
}
