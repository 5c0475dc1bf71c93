/** Tables of wrong inputs, each with the one line it is told in: where, what was given, what was expected. */
import { expect, it } from "vitest";
import { rodebench } from "./command-line.ts";
import { FILES } from "./stranger-files.ts";

export type WrongInput = readonly [
  what: string,
  argv: readonly string[],
  line: string,
  /** Texts beside those of a stranger's folder, or in their place. */
  files?: Readonly<Record<string, string>>,
];

/** A test for each: that line on standard error, nothing else anywhere, status 2. */
export function eachToldInOneLine(table: readonly WrongInput[]): void {
  it.each(table.map((row) => [row[0], row] as const))(
    "%s is told in one line, and nothing else is said",
    async (_what, [, argv, line, files]) => {
      // A place, what was given, and what is expected or meant.
      expect(line).toMatch(/^[^;]+: .+; .*(expected|meant\?)/);
      const said = await rodebench(argv, { ...FILES, ...files });
      expect(said).toEqual({ out: "", err: `${line}\n`, both: `${line}\n`, status: 2 });
    },
  );
}
