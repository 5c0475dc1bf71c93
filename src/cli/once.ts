/** An option that is given twice says two things: the second is not silently taken for the first. */
import type { Command } from "commander";
import { InputError } from "../quantity/index.ts";

/** Options that gather what they are given may be repeated; no other may. @throws InputError while the line is read */
export function refuseRepeated(command: Command): void {
  for (const option of command.options) {
    // Options of a few words have a parser too, which gathers nothing.
    if (option.variadic || (option.parseArg !== undefined && option.argChoices === undefined)) continue;
    let before: string | undefined;
    command.on(`option:${option.name()}`, (value: unknown) => {
      const given = typeof value === "string" ? value : "";
      if (before !== undefined)
        throw new InputError(
          option.long ?? option.name(),
          given === "" ? "given twice" : `${before} and ${given}`,
          "the option once is expected",
        );
      before = given;
    });
  }
}
