/**
 * Builds src/web/viewer into one HTML file with its script and its style within, and the two places a page's title and
 * content go to. What may run in it is told by hashes: nothing that is put in later is a script, and nothing is fetched.
 */
import { createHash } from "node:crypto";
import react from "@vitejs/plugin-react";
import { build, type Plugin } from "vite";
import { PAGE_SLOTS } from "../src/publish/page/page-slots.ts";

/** Its name in the built bench. */
export const VIEWER_FILE = "viewer-page.html";

const hash = (text: string): string => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/** The whole page, empty. */
export async function viewerPage(): Promise<string> {
  const built = await build({
    configFile: false,
    publicDir: false,
    logLevel: "warn",
    plugins: [react()],
    define: { "process.env.NODE_ENV": '"production"' },
    build: {
      write: false,
      minify: true,
      cssCodeSplit: false,
      lib: { entry: "src/web/viewer/main.tsx", formats: ["iife"], name: "viewer", fileName: "viewer" },
      rolldownOptions: { output: { comments: { legal: false } } },
    },
  });
  const outputs = (Array.isArray(built) ? built : [built]).flatMap((one) => ("output" in one ? one.output : []));
  const script = outputs.find((one) => one.type === "chunk")?.code.trim();
  const style = outputs.find((one) => one.type === "asset" && one.fileName.endsWith(".css"));
  if (script === undefined || style?.type !== "asset") throw new Error("the viewer's script and style are expected");
  // A script element ends at these letters wherever they stand; in a string of a script they may be written so.
  const safe = script.replaceAll("</script", "<\\/script").replaceAll("<!--", "<\\!--");
  const css = String(style.source).trim();
  const policy = [
    "default-src 'none'",
    `script-src ${hash(safe)}`,
    `style-src ${hash(css)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title><!--${PAGE_SLOTS.title}--></title>
<style>${css}</style>
</head>
<body>
<noscript><p>This page computes in the browser: it needs JavaScript. Nothing is sent anywhere.</p></noscript>
<div id="page"></div>
<script type="application/json" id="${PAGE_SLOTS.content}"><!--${PAGE_SLOTS.content}--></script>
<script>${safe}</script>
</body>
</html>
`;
}

/** Adds the page to the build of the bench. */
export function withViewerPage(): Plugin {
  return {
    name: "viewer-page",
    apply: "build",
    async generateBundle() {
      // Of the build of a worker it is no part.
      if (this.environment.name !== "client" || this.meta.watchMode) return;
      this.emitFile({ type: "asset", fileName: VIEWER_FILE, source: await viewerPage() });
    },
  };
}
