/** What is wrong with a text that is no YAML, told to whoever wrote it: the library's own words speak of its insides. */
import type { YAMLError } from "yaml";
import { quoted } from "./errors.ts";

/**
 * @param text the whole text, in which the fault says where it is
 * @returns what stands there, and what was expected
 */
export function yamlFault(fault: YAMLError, text: string): readonly [given: string, expected: string] {
  const told = fault.message.split("\n")[0]!.replace(/ at line \d+, column \d+:?$/, "");
  const rest = text.slice(fault.pos[0]).split("\n")[0]!;
  const close = /end with a ([\]}])$/.exec(told)?.[1];
  if (close !== undefined)
    return [`a ${close === "}" ? "{" : "["} that is not closed`, `a ${close} at its end is expected`];
  const quote = /^Missing closing (["'])/.exec(told)?.[1];
  if (quote !== undefined) return ["a text that is not closed", `a ${quote} at its end is expected`];
  switch (fault.code) {
    case "MULTIPLE_DOCS":
      return ["a second document", "one document is expected"];
    case "TAG_RESOLVE_FAILED":
      return [`the tag ${/^\S{1,60}/.exec(rest)?.[0] ?? ""}`, "a value without a tag is expected"];
    case "TAB_AS_INDENT":
      return ["a tab that indents", "blanks are expected"];
    case "BLOCK_AS_IMPLICIT_KEY":
      return [
        `a field within the value ${quoted(rest)}`,
        'a line for each field, in one column with its group, is expected; a text with ": " in it stands in quotes',
      ];
    case "MULTILINE_IMPLICIT_KEY":
      return [
        `${quoted(rest)}, which is no field`,
        'a name, a colon, a blank and a value are expected, as in "rise: 9 m"',
      ];
    case "BLOCK_IN_FLOW":
      return [`${quoted(rest)} within brackets`, "a comma between two fields, or brackets of its own, is expected"];
    case "UNEXPECTED_TOKEN":
      return [
        `${quoted(rest)} right after what stands before it`,
        "a comma or a line of its own, or nothing, is expected",
      ];
    case "BAD_SCALAR_START":
      return [`a value that begins with ${rest.slice(0, 1)}`, "such a value in quotes is expected"];
    case "BAD_INDENT":
      return ["a line further in or out than its group", "all fields of a group in one column are expected"];
    default:
      return [told, "YAML or JSON is expected"];
  }
}
