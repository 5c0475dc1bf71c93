/** The completion of a shell, written out from the commands as they stand: it asks the program nothing while one types. */
import type { Command, Option } from "commander";

export const SHELLS = ["bash", "zsh", "fish", "powershell"] as const;
export type Shell = (typeof SHELLS)[number];

/** What may follow a line's beginning: `settle`, `book list`, or nothing typed yet. */
interface Place {
  readonly path: string;
  readonly words: readonly { readonly word: string; readonly about: string }[];
  /** Options with the few words each may be. */
  readonly choices: readonly { readonly option: string; readonly words: readonly string[] }[];
}

export function completionScript(shell: Shell, all: readonly Command[]): string {
  const places = placesOf(all);
  switch (shell) {
    case "bash":
      return bash(places);
    case "zsh":
      return zsh(places);
    case "fish":
      return fish(places);
    case "powershell":
      return powershell(places);
  }
}

function placesOf(all: readonly Command[]): Place[] {
  const shown = (option: Option) => !option.hidden && option.long !== undefined && option.long !== null;
  const place = (path: string, command: Command): Place => {
    const options = command.options.filter(shown);
    return {
      path,
      words: [
        ...command.commands.map((sub) => ({ word: sub.name(), about: sub.description() })),
        ...options.map(({ long, description }) => ({ word: long!, about: description })),
        { word: "--help", about: "help" },
      ],
      choices: [
        ...options.flatMap(({ long, argChoices }) =>
          argChoices === undefined ? [] : [{ option: long!, words: argChoices }],
        ),
      ],
    };
  };
  const top: Place = {
    path: "",
    words: [
      ...all.map((command) => ({ word: command.name(), about: command.description() })),
      { word: "--version", about: "the version of this program" },
      { word: "--help", about: "help" },
    ],
    choices: [],
  };
  const arguments_ = (command: Command) => command.registeredArguments.flatMap(({ argChoices }) => argChoices ?? []);
  return [
    top,
    ...all.flatMap((command) => {
      const own = place(command.name(), command);
      const words = [...own.words, ...arguments_(command).map((word) => ({ word, about: "" }))];
      return [{ ...own, words }, ...command.commands.map((sub) => place(`${command.name()} ${sub.name()}`, sub))];
    }),
  ];
}

/** The first sentence of what a word is, short enough for a line beside it. */
function short(about: string): string {
  const line = about.replace(/\s+/g, " ").replace(/['"`$\\]/g, "");
  return line.length <= 70 ? line : `${line.slice(0, 67)}...`;
}

function cases(places: readonly Place[], line: (place: Place) => string): string {
  return places.map((place) => `    "${place.path}") ${line(place)} ;;`).join("\n");
}

const list = ({ words }: Place) => words.map(({ word }) => word).join(" ");

function chosen(places: readonly Place[]): string {
  return places
    .flatMap(({ path, choices }) =>
      choices.map(({ option, words }) => `    "${path} ${option}") words="${words.join(" ")}" ;;`),
    )
    .join("\n");
}

const nested = (places: readonly Place[]) => [
  ...new Set(places.filter(({ path }) => path.includes(" ")).map(({ path }) => path.split(" ")[0]!)),
];

function bash(places: readonly Place[]): string {
  return `# Completion of rodebench for bash. In ~/.bashrc: source <(rodebench completion bash)
_rodebench() {
  local cur="\${COMP_WORDS[COMP_CWORD]}" prev="\${COMP_WORDS[COMP_CWORD-1]}" path="" words=""
  if (( COMP_CWORD > 1 )); then path="\${COMP_WORDS[1]}"; fi
  case "$path" in
    ${nested(places).join("|")}) if (( COMP_CWORD > 2 )); then path="$path \${COMP_WORDS[2]}"; fi ;;
  esac
  case "$path $prev" in
${chosen(places)}
  esac
  if [ -z "$words" ]; then case "$path" in
${cases(places, (place) => `words="${list(place)}"`)}
  esac; fi
  COMPREPLY=( $(compgen -W "$words" -- "$cur") )
}
complete -o default -F _rodebench rodebench
`;
}

function zsh(places: readonly Place[]): string {
  return `#compdef rodebench
# Completion of rodebench for zsh. In ~/.zshrc, after compinit: source <(rodebench completion zsh)
_rodebench() {
  local path_="" before="\${words[CURRENT-1]}" words_=""
  if (( CURRENT > 2 )); then path_="\${words[2]}"; fi
  case "$path_" in
    ${nested(places).join("|")}) if (( CURRENT > 3 )); then path_="$path_ \${words[3]}"; fi ;;
  esac
  case "$path_ $before" in
${chosen(places).replaceAll(" words=", " words_=")}
  esac
  if [[ -n "$words_" ]]; then compadd -- \${=words_}; return; fi
  case "$path_" in
${cases(places, (place) => `words_="${list(place)}"`)}
  esac
  compadd -- \${=words_}
  _files
}
compdef _rodebench rodebench
`;
}

function fish(places: readonly Place[]): string {
  const lines = places.flatMap(({ path, words, choices }) => {
    const [command, sub] = path.split(" ");
    const when =
      path === ""
        ? "__fish_use_subcommand"
        : sub === undefined
          ? `__fish_seen_subcommand_from ${command}`
          : `__fish_seen_subcommand_from ${command}; and __fish_seen_subcommand_from ${sub}`;
    return words.map(({ word, about }) => {
      const few = choices.find(({ option }) => option === word);
      const what = word.startsWith("--") ? `-l ${word.slice(2)}` : `-a ${word}`;
      const then = few === undefined ? "" : ` -x -a '${few.words.join(" ")}'`;
      return `complete -c rodebench -n '${when}' ${what}${then} -d '${short(about)}'`;
    });
  });
  return `# Completion of rodebench for fish. Once: rodebench completion fish > ~/.config/fish/completions/rodebench.fish\n${lines.join("\n")}\n`;
}

function powershell(places: readonly Place[]): string {
  const quoted = (words: readonly string[]) => words.map((word) => `'${word}'`).join(", ");
  const entries = (rows: readonly (readonly [string, readonly string[]])[]) =>
    rows.map(([key, words]) => `    '${key}' = @(${quoted(words)})`).join("\n");
  const words = places.map(({ path, words: all }) => [path, all.map(({ word }) => word)] as const);
  const few = places.flatMap(({ path, choices }) =>
    choices.map(({ option, words: some }) => [`${path} ${option}`, some] as const),
  );
  return `# Completion of rodebench for PowerShell. In $PROFILE: rodebench completion powershell | Out-String | Invoke-Expression
Register-ArgumentCompleter -Native -CommandName rodebench -ScriptBlock {
  param($wordToComplete, $commandAst, $cursorPosition)
  $words = @{
${entries(words)}
  }
  $choices = @{
${entries(few)}
  }
  $typed = @($commandAst.CommandElements | ForEach-Object { $_.ToString() })
  if ($wordToComplete -ne '' -and $typed.Count -gt 1) { $typed = $typed[0..($typed.Count - 2)] }
  $path = if ($typed.Count -gt 1) { $typed[1] } else { '' }
  if (@(${quoted(nested(places))}) -contains $path -and $typed.Count -gt 2) { $path = "$path $($typed[2])" }
  $known = $choices["$path $($typed[-1])"]
  if (-not $known) { $known = $words[$path] }
  $known | Where-Object { $_ -like "$wordToComplete*" } | ForEach-Object {
    [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
  }
}
`;
}
