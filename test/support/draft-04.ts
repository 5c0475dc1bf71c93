/**
 * Where a document does not hold to a JSON Schema of draft 4, as far as the profiles under test/published go. A keyword that
 * is not known here is an error, so that none is passed over.
 */
type Schema = Readonly<Record<string, unknown>>;

const SAID_ONLY = ["$schema", "title", "description", "default", "format"];

export function draft04Troubles(schema: Schema, value: unknown, path = ""): string[] {
  const troubles: string[] = [];
  const group =
    typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Record<string, unknown>) : null;
  const list = Array.isArray(value) ? value : null;
  for (const [keyword, asked] of Object.entries(schema)) {
    const wrong = (what: string): number => troubles.push(`${path || "/"}: ${what}`);
    switch (keyword) {
      case "type":
        if (![asked].flat().some((type) => isOf(type as string, value))) wrong(`${String(asked)} is expected`);
        break;
      case "required":
        for (const name of asked as string[]) if (group !== null && !(name in group)) wrong(`${name} is missing`);
        break;
      case "properties":
        for (const [name, one] of Object.entries(asked as Record<string, Schema>))
          if (group !== null && name in group) troubles.push(...draft04Troubles(one, group[name], `${path}/${name}`));
        break;
      case "patternProperties":
        for (const [pattern, one] of Object.entries(asked as Record<string, Schema>))
          for (const name of Object.keys(group ?? {}))
            if (new RegExp(pattern, "u").test(name))
              troubles.push(...draft04Troubles(one, group![name], `${path}/${name}`));
        break;
      case "items":
        for (const [i, item] of (list ?? []).entries())
          troubles.push(...draft04Troubles(asked as Schema, item, `${path}/${i}`));
        break;
      case "minItems":
        if (list !== null && list.length < (asked as number)) wrong(`at least ${String(asked)} items`);
        break;
      case "uniqueItems":
        if (asked === true && list !== null && new Set(list.map((one) => JSON.stringify(one))).size < list.length)
          wrong("items twice");
        break;
      case "minimum":
        if (typeof value === "number" && value < (asked as number)) wrong(`at least ${String(asked)}`);
        break;
      case "minLength":
      case "maxLength":
        if (
          typeof value === "string" &&
          (keyword === "minLength" ? value.length < (asked as number) : value.length > (asked as number))
        )
          wrong(`${keyword} ${String(asked)}`);
        break;
      case "pattern":
        if (typeof value === "string" && !new RegExp(asked as string).test(value))
          wrong(`${String(asked)} is expected`);
        break;
      case "enum":
        if (!(asked as unknown[]).some((one) => JSON.stringify(one) === JSON.stringify(value)))
          wrong(`one of ${JSON.stringify(asked)}`);
        break;
      case "not":
        if (draft04Troubles(asked as Schema, value, path).length === 0) wrong("what must not be");
        break;
      case "allOf":
      case "anyOf":
      case "oneOf": {
        const each = (asked as Schema[]).map((one) => draft04Troubles(one, value, path));
        const held = each.filter((one) => one.length === 0).length;
        if (keyword === "allOf" ? held < each.length : keyword === "anyOf" ? held === 0 : held !== 1)
          wrong(`${keyword}: ${held} of ${each.length} hold: ${each.flat().join("; ")}`);
        break;
      }
      default:
        if (!SAID_ONLY.includes(keyword)) throw new Error(`${path}: the keyword ${keyword} is not known here`);
    }
  }
  return troubles;
}

function isOf(type: string, value: unknown): boolean {
  if (type === "array") return Array.isArray(value);
  if (type === "null") return value === null;
  if (type === "integer") return Number.isInteger(value);
  if (type === "object") return typeof value === "object" && value !== null && !Array.isArray(value);
  return typeof value === type;
}
