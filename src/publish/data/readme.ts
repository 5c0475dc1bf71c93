/** What a package tells a reader who opens its folder, in Markdown. */
import { plainText } from "../../quantity/index.ts";
import { CAUTION, INVENTED } from "../../words/index.ts";
import type { Private } from "./columns.ts";
import type { About } from "./descriptor.ts";

/** Signs Markdown reads as more than themselves, made plain: a name is a name. */
export function markdownText(text: string): string {
  return plainText(text)
    .replace(/\s+/g, " ")
    .replace(/[\\`*_{}[\]()#+\-.!|<>&~=:@]/g, (sign) => `\\${sign}`);
}

/** The text of README.md. */
export function readmeOf(
  { title, description, by, citation, licence, program, invented = false }: About,
  pulls: number,
  chosen: readonly Private[],
  logs: number,
): string {
  const kept = ["people", "remarks", "positions"].filter((name) => !chosen.includes(name as Private));
  return `# ${markdownText(title)}

${invented ? `**${INVENTED}**\n\n` : ""}${[description, by === "" ? "" : `Tested by ${by}.`]
  .filter((line) => line !== "")
  .map((line) => `${markdownText(line)}\n`)
  .join("\n")}
${pulls} pulls. Every number is in the unit its column's name or \`datapackage.json\` says; \`u\` is a standard uncertainty; an empty cell is "not known". A pull that ended while the anchor held says only that it held so much: such pulls are censored, not weak.

| file | what it is |
| --- | --- |
| \`pulls.csv\`, \`pulls.parquet\` | one row a pull: what was read, and the load at the anchor worked out from it |
| \`rigs/\` | how the rodes were put together |
${logs === 0 ? "" : "| `logs/` | what was read during each pull, reading by reading; time in seconds from the first reading |\n"}| \`answers.json\` | what comparing these pulls answers |
| \`made.json\` | how each number was made |
| \`datapackage.json\` | meaning, unit and type of each column, licence, citation, SHA-256 of each file |

Work every number out again: \`rodebench publish check .\` (made by rodebench ${program}).

${kept.length === 0 ? "" : `Left out: ${kept.join(", ")}.\n\n`}Licence: [${licence.title}](${licence.path}). Cite as: ${markdownText(citation)}

${CAUTION}
`;
}
