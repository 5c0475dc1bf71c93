/** Blocks fenced `session` in the docs: commands typed in a folder of their own, each followed by what a terminal shows. */

/** What differs from run to run: ids, times, hashes. */
export function maskedSession(text: string): string {
  return text
    .replace(/\d{8}T\d{6}\.\d{3}Z-\d+-\d+(-\d+)?\.book/g, "BACKUP")
    .replace(/[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}/g, "ID")
    .replace(/\d{4}-?\d\d-?\d\dT\d\d:?\d\d:?\d\d\.\d{3}Z/g, "TIME")
    .replace(/--confirm [0-9a-f]{8}/g, "--confirm TOKEN")
    .replace(/^[0-9a-f]{8}(?= {2})/gm, "ID")
    .replace(/\b[0-9a-f]{16,}(\.\.\.)?/g, "SHA");
}

/** The words of a command as a shell would give them; `$name` stands for what is known by that name. */
export function typed(line: string, known: Readonly<Record<string, string>> = {}): string[] {
  return [...line.matchAll(/"([^"]*)"|((?:[^\s"]|"[^"]*")+)/g)].map((m) =>
    (m[1] ?? m[2]!).replace(/"([^"]*)"/g, "$1").replace(/\$(\w+)/g, (all, name: string) => known[name] ?? all),
  );
}
