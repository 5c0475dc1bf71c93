/** Columns of text, each right-aligned under its head. */
export function textTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]!.length)));
  return [head, ...rows]
    .map(
      (row) =>
        `${row
          .map((cell, i) => cell.padStart(widths[i]!))
          .join("  ")
          .trimEnd()}\n`,
    )
    .join("");
}
