/** A rig file as short as one can be: what a book keeps of a rig is read before it is kept. */
export function rigText(name: string): string {
  return `format: rodebench/rig@1\nname: ${name}\nsetting: { medium: air, rise: 9 m }\nrode: [{ chain: { grade: "30", size: 10 mm, length: 30 m } }]\n`;
}
