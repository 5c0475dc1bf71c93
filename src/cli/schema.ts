import { Command } from "commander";
import { InputError, nearestName, quoted } from "../quantity/index.ts";
import type { Io } from "./io.ts";
import { answerJson } from "./options.ts";
import { formats, schemaOf } from "./schemas/index.ts";

export function schemaCommand(io: Io): Command {
  return new Command("schema")
    .argument("[name]", 'the format, such as "rig", "settled@1" or "rodebench/run@1"')
    .option("--json", "the formats as one JSON document")
    .action((name: string | undefined, options: { readonly json?: true }) => {
      if (name !== undefined) answerJson(io, schemaOf(formatNamed(name)));
      else if (options.json) {
        answerJson(io, {
          format: "rodebench/formats@1",
          formats: Object.entries(formats).map(([id, { what, about }]) => ({ name: `rodebench/${id}`, what, about })),
        });
      } else {
        const width = 2 + Math.max(...Object.keys(formats).map((id) => id.length));
        io.out(
          Object.entries(formats)
            .map(([id, { what, about }]) => `${id.padEnd(width)}${what.padEnd(8)}${about}\n`)
            .join(""),
        );
      }
    });
}

/** A format's key by its name, with or without `rodebench/` and the number. */
function formatNamed(given: string): string {
  const name = given.replace(/^rodebench\//, "");
  const known = Object.keys(formats).filter((each) => each === name || each.split("@")[0] === name);
  if (known.length > 0) return known.at(-1)!;
  const near = nearestName(name.split("@")[0]!, [...new Set(Object.keys(formats).map((each) => each.split("@")[0]!))]);
  throw new InputError(
    "schema",
    quoted(given),
    `${near === undefined ? "" : `is ${near} meant? `}one of those \`rodebench schema\` lists is expected`,
  );
}
