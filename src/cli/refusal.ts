/** What is wrong with a command line, in the one line that says what was expected as well. */
import type { Command, CommanderError } from "commander";

/** On one line, and without signs that steer a terminal: names and values of a file are told back as they stand there. */
export function onOneLine(text: string): string {
  return text.replace(/\s*[\p{Cc}\u2028\u2029]\s*/gu, " ");
}

export function refusal(error: CommanderError, program: Command, argv: readonly string[]): string {
  const message = error.message.replace(/^error: /, "");
  const { path, command } = named(program, argv);
  switch (error.code) {
    case "commander.help":
      return `no command given; one of those \`${path} --help\` lists is expected`;
    case "commander.unknownCommand":
    case "commander.unknownOption":
      return `${message}; one of those \`${path} --help\` lists is expected`;
    case "commander.missingArgument":
      return `${message}; \`${path} ${command.usage()}\` is expected`;
    case "commander.excessArguments":
      return `${message.replace(/\. Expected .*$/, "")}; \`${path} ${command.usage()}\` is expected`;
    case "commander.optionMissingArgument":
      return `${message}; a value is expected after it`;
    case "commander.invalidArgument":
      return message.replace(/ is invalid\. Allowed choices are (.*)\.$/, "; one of $1 is expected");
    default:
      return message;
  }
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
