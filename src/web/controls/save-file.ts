/** Hands a YAML text to the browser to keep, under a file name made of a title. */
export function saveYaml(text: string, title: string, otherwise: string): void {
  saveFile(text, "application/yaml", `${fileName(title) || otherwise}.yaml`);
}

/** Hands a text or a picture to the browser to keep. */
export function saveFile(content: string | Blob, type: string, name: string): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Letters and digits of any script, small, joined by hyphens. */
export function fileName(title: string): string {
  return title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
}
