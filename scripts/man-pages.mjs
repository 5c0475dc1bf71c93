// Manual pages out of the docs: a page of man for each command, from its help and its page in docs/. Headings, paragraphs,
// lists, tables and blocks are all that those pages use.

/** The page of docs/ that tells of a command, where it is not called by its name. */
const PAGES = { log: "logs", trace: "reduction-of-a-pull", open: "bench", schema: "schemas", completion: null };

/** What stands in a line: a stroke and a leading point or quote mean something to roff. */
const escaped = (text) =>
  text
    .replace(/\\/g, "\\e")
    .replace(/-/g, "\\-")
    .replace(/^([.'])/gm, "\\&$1");

/** Emphasis, code and links within a paragraph. */
function inline(text) {
  const plain = text.replace(/!\[([^\]]*)\]\([^)]*\)/g, "$1").replace(/\[([^\]]*)\]\([^)]*\)/g, "$1");
  return plain
    .split(/(`[^`]+`|\*\*[^*]+\*\*)/)
    .map((part) =>
      part.startsWith("`")
        ? `\\fB${escaped(part.slice(1, -1))}\\fR`
        : part.startsWith("**")
          ? `\\fB${escaped(part.slice(2, -2))}\\fR`
          : escaped(part),
    )
    .join("")
    .replace(/^([.'])/, "\\&$1");
}

/** Markdown as roff, its first heading left out: a manual page has its own. */
export function roffOf(markdown) {
  const out = [];
  const lines = markdown.split("\n");
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i];
    if (line.startsWith("```")) {
      out.push(".PP", ".RS 4", ".nf");
      for (i++; i < lines.length && !lines[i].startsWith("```"); i++) out.push(escaped(lines[i]));
      out.push(".fi", ".RE");
    } else if (line.startsWith("# ")) continue;
    else if (line.startsWith("## "))
      out.push(
        `.SH "${inline(line.slice(3))
          .toUpperCase()
          .replace(/\\F([BR])/g, "\\f$1")
          .replace(/\\E/g, "\\e")}"`,
      );
    else if (/^###+ /.test(line)) out.push(`.SS "${inline(line.replace(/^#+ /, ""))}"`);
    else if (line.startsWith("|")) {
      const cells = line
        .split("|")
        .slice(1, -1)
        .map((cell) => cell.trim());
      if (/^[-:]+$/.test(cells[0] ?? "")) continue;
      // The head of a table tells a reader of a list nothing.
      if (/^\|[ -:|]+\|$/.test(lines[i + 1] ?? "") && lines[i + 1].includes("---")) continue;
      out.push(".TP", inline(cells[0] ?? ""), inline(cells.slice(1).join("; ")) || "\\&");
    } else if (/^(- |\d+\. )/.test(line)) out.push(".IP \\(bu 2", inline(line.replace(/^(- |\d+\. )/, "")));
    else if (line.trim() === "") out.push(".PP");
    else out.push(inline(line));
  }
  return out
    .join("\n")
    .replace(/(\.PP\n)+/g, ".PP\n")
    .replace(/\.PP\n(?=\.(SH|SS|TP|IP))/g, "");
}

function head(name, section, version) {
  return `.TH "${name.toUpperCase()}" "${section}" "" "rodebench ${version}" "rodebench"\n`;
}

/** Options and arguments as commander has them. */
function synopsis(path, command) {
  const rows = [
    ...command.registeredArguments.map((argument) => [
      argument.required ? `<${argument.name()}>` : `[${argument.name()}]`,
      argument.description,
    ]),
    ...command.options
      .filter((option) => !option.hidden)
      .map((option) => [
        option.flags,
        option.argChoices === undefined
          ? option.description
          : `${option.description} (${option.argChoices.join(", ")})`,
      ]),
  ];
  const usage = `.SH SYNOPSIS\n.B ${escaped(path)}\n${escaped(command.usage())}\n`;
  const options = rows.map(([flags, about]) => `.TP\n.B ${escaped(flags)}\n${inline(about) || "\\&"}\n`).join("");
  return { usage, options: options === "" ? "" : `.SH OPTIONS\n${options}` };
}

const STATUS = `.SH "EXIT STATUS"
.TP
0
answered
.TP
2
the input is wrong; one line on standard error tells where, what was given, what was expected
.TP
3
there is no answer; one line tells why, and what would give one
.TP
4
a disk is full
.TP
1
a fault of the program itself
`;

/**
 * @param commands commander's commands, in the order of the help
 * @param page gives the text of a page of docs/, undefined where there is none
 * @returns the pages by their file names: rodebench.1, rodebench-settle.1 and so on
 */
export function manPages(commands, version, page) {
  const pages = {};
  const list = commands.map(
    (command) => `.TP\n.BR rodebench\\-${escaped(command.name())} (1)\n${inline(command.description())}\n`,
  );
  pages["rodebench.1"] =
    `${head("rodebench", 1, version)}.SH NAME\nrodebench \\- mechanics, statistics and records for independent anchor testing\n.SH SYNOPSIS\n.B rodebench\n\\fIcommand\\fR [options]\n.SH COMMANDS\n${list.join("")}${STATUS}${roffOf(page("README") ?? "")}\n`;
  for (const command of commands) {
    const name = command.name();
    const path = `rodebench ${name}`;
    const told = PAGES[name] === undefined ? name : PAGES[name];
    const { usage, options } = synopsis(path, command);
    const subs = command.commands.map((sub) => {
      const own = synopsis(`${path} ${sub.name()}`, sub);
      return `.SS "${escaped(`${path} ${sub.name()} ${sub.usage()}`)}"\n${inline(sub.description())}\n${own.options.replace(/^\.SH OPTIONS\n/, "")}`;
    });
    const under = subs.length === 0 ? "" : `.SH COMMANDS\n${subs.join("")}`;
    const text = told === null ? "" : page(told);
    pages[`rodebench-${name}.1`] =
      `${head(`rodebench-${name}`, 1, version)}.SH NAME\nrodebench\\-${escaped(name)} \\- ${inline(command.description())}\n${usage}${options}${under}.SH DESCRIPTION\n${roffOf(text ?? "")}\n${STATUS}`;
  }
  return pages;
}
