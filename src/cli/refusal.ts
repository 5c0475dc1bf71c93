/** What is wrong with a command line, in the one line that says what was expected as well. */
import type { Command, CommanderError } from "commander";
import { nearestName } from "../quantity/index.ts";

export function refusal(error: CommanderError, program: Command, argv: readonly string[]): string {
  const message = error.message.replace(/^error: /, "");
  const { path, command } = named(program, argv);
  switch (error.code) {
    case "commander.help": {
      const asked = argv.indexOf("help");
      const of = argv[asked + 1];
      if (asked >= 0 && of !== undefined)
        return `unknown command '${of}'; ${meant(`'${of}'`, command)}one of those \`${path} --help\` lists is expected`;
      return `no command given; one of those \`${path} --help\` lists is expected`;
    }
    case "commander.unknownCommand":
    case "commander.unknownOption":
      return `${message}; ${meant(message, command)}one of those \`${path} --help\` lists is expected`;
    case "commander.missingArgument":
      return `${message}; \`${path} ${command.usage()}\` is expected`;
    case "commander.excessArguments":
      return `${message.replace(/\. Expected .* but got (\d+)\.?.*$/, ", $1 given")}; \`${path} ${command.usage()}\` is expected`;
    case "commander.optionMissingArgument":
      return `${message}; a value is expected after it`;
    case "commander.invalidArgument":
      return message
        .replace(
          /^command-argument value '(.*)' is invalid for argument '(\w+)'\. Allowed choices are (.*)\.$/,
          (_, value: string, name: string, known: string) => `${name} '${value}'; one of ${known} is expected`,
        )
        .replace(/ is invalid\. Allowed choices are (.*)\.$/, "; one of $1 is expected")
        .replace(/ is invalid\. /, "; ");
    case "commander.missingMandatoryOptionValue":
      return message.replace(/^required option '(.*)' not specified$/, "option '$1' missing; it is expected");
    default:
      return message;
  }
}

/** The name nearest to the one that is none. */
function meant(message: string, command: Command): string {
  const typed = /'([^'=]*)/.exec(message)?.[1] ?? "";
  const known = typed.startsWith("-")
    ? command.options.flatMap(({ long }) => (long === undefined || long === null ? [] : [long]))
    : command.commands.map((sub) => sub.name());
  const near = nearestName(typed, [...known, "--help"]);
  return near === undefined ? "" : `is ${near} meant? `;
}

/** The command a line names, as deep as it does. */
function named(program: Command, argv: readonly string[]): { path: string; command: Command } {
  let command = program;
  let path = program.name();
  for (const word of argv) {
    const sub = command.commands.find((each) => each.name() === word);
    if (sub === undefined) break;
    command = sub;
    path += ` ${word}`;
  }
  return { path, command };
}
