/** Hands a YAML text to the browser to keep, under a file name made of a title. */
export function saveYaml(text: string, title: string, otherwise: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = `${fileName(title) || otherwise}.yaml`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Letters and digits of any script, small, joined by hyphens. */
function fileName(title: string): string {
  return title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
}
