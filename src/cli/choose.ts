import { Command } from "commander";
import { InputError } from "../quantity/index.ts";
import { choose, type PlanFiles, planPaths, readPlan } from "../sizing/index.ts";
import { readBeside } from "./beside.ts";
import { choiceDocument } from "./choose-document.ts";
import { choiceText } from "./choose-text.ts";
import type { Io } from "./io.ts";
import { answerJson, placeOf, type Shown, shown } from "./options.ts";

export function chooseCommand(io: Io): Command {
  return shown(new Command("choose").argument("<plan>", "plan file (rodebench/plan@1); - for standard input")).action(
    async (path: string, options: Shown) => {
      const place = placeOf(path);
      const text = await io.read(path);
      const plan = readPlan(text, place, await filesOf(planPaths(text, place), path, place, io));
      const choice = choose(plan);
      if (options.json) answerJson(io, choiceDocument(plan, choice));
      else io.out(choiceText(plan, choice, options.units));
    },
  );
}

/** The files a plan names lie beside it, wherever that is. */
async function filesOf(paths: readonly string[], plan: string, place: string, io: Io): Promise<PlanFiles> {
  const files: Record<string, { text: string; place: string }> = {};
  for (const path of paths) {
    if (path === "-") throw new InputError(place, "-", "the path of a file is expected where a plan names one");
    files[path] = await readBeside(plan, path, place, io);
  }
  return files;
}
