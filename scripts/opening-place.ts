/**
 * Tells the browser in the page itself what the opening place needs, so that it comes together with the entry and not
 * after it has run. Opened elsewhere, the place that is shown shares most of it.
 */
import type { Plugin } from "vite";

/** The module of the place the bench opens with, by the end of its path: the first of src/web/places.ts. */
const OPENING = "src/web/rig/place.tsx";

/** Puts the scripts and styles of the opening place into the head of index.html. */
export function withOpeningPlace(): Plugin {
  return {
    name: "opening-place",
    apply: "build",
    transformIndexHtml: {
      order: "post",
      handler(html, { bundle = {} }) {
        const chunks = Object.values(bundle).filter((one) => one.type === "chunk");
        const opening = chunks.find(({ facadeModuleId }) => facadeModuleId?.endsWith(OPENING));
        if (opening === undefined) throw new Error(`${OPENING}: a chunk of its own is expected`);
        const scripts = new Set<string>();
        const styles = new Set<string>();
        const follow = (file: string): void => {
          const chunk = chunks.find(({ fileName }) => fileName === file);
          if (chunk === undefined || scripts.has(file)) return;
          scripts.add(file);
          for (const style of chunk.viteMetadata?.importedCss ?? []) styles.add(style);
          for (const other of chunk.imports) follow(other);
        };
        follow(opening.fileName);
        const missing = (files: ReadonlySet<string>) => [...files].filter((file) => !html.includes(`"/${file}"`));
        return [
          ...missing(scripts).map((file) => ({
            tag: "link",
            attrs: { rel: "modulepreload", crossorigin: true, href: `/${file}` },
          })),
          ...missing(styles).map((file) => ({
            tag: "link",
            attrs: { rel: "stylesheet", crossorigin: true, href: `/${file}` },
          })),
        ].map((link) => ({ ...link, injectTo: "head" as const }));
      },
    },
  };
}
