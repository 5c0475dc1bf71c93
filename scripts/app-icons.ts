// Draws the icons of the installed bench from src/web/public/icon.svg: `node --import tsx scripts/app-icons.ts`.
import { readFileSync, writeFileSync } from "node:fs";
import { Resvg } from "@resvg/resvg-js";

const svg = readFileSync("src/web/public/icon.svg", "utf8");
for (const width of [192, 512]) {
  const drawing = new Resvg(svg, { fitTo: { mode: "width", value: width }, font: { loadSystemFonts: false } });
  writeFileSync(`src/web/public/icon-${width}.png`, drawing.render().asPng());
}
