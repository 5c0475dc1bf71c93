import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { withOpeningPlace } from "./scripts/opening-place.ts";
import { withViewerPage } from "./scripts/viewer-page.ts";

/** Without the licence comments of every small module: in the worker they weighed twice what the code does. */
const bare = { comments: { legal: false } };

/**
 * What stands in one file because every place needs it, or because the opening place does and it is small: a file of its
 * own costs a slow processor more than its bytes. Leaves only: none of them may use a module outside.
 */
const IN_CORE = new RegExp(
  [
    "vite/preload-helper",
    "src/quantity/(?!document|nesting)",
    "src/web/(state|controls)/(?!file-pick|ask-first|curve)",
    "src/web/shell/shell\\.module",
    "src/web/figure/(figure-frame|figure-menu|read-off|read-out|rode-table)",
    "src/web/work/(fault|worker-line)",
    "src/rode/(model|unknown)\\.ts",
    "src/numeric/(brent|gauss-legendre|ticks)\\.ts",
    "src/statistics/(jacobian|uncertain-input|centre)\\.ts",
    "src/words/(no-equilibrium|uncertainty)\\.ts",
  ].join("|"),
);

/** The bench: src/web, built into dist/web, where the server of `rodebench open` finds it. */
export default defineConfig({
  root: "src/web",
  plugins: [
    react(),
    withViewerPage(),
    withOpeningPlace(),
    VitePWA({
      // A new version waits until whoever is at work says so: nothing reloads in the middle of a pull.
      registerType: "prompt",
      // The page's policy allows no inline script: src/web/shell/new-version.tsx registers it.
      injectRegister: false,
      manifest: {
        name: "rodebench",
        short_name: "rodebench",
        description: "What a rode does, what an anchor felt, and how sure that is.",
        start_url: "/",
        scope: "/",
        display: "standalone",
        background_color: "#eef2f1",
        theme_color: "#0f3d4c",
        icons: [
          { src: "icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "icon-512.png", sizes: "512x512", type: "image/png", purpose: "any" },
          { src: "icon-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
      workbox: {
        globPatterns: ["**/*.{js,css,html,svg,png,webmanifest,woff2}"],
        maximumFileSizeToCacheInBytes: 6_000_000,
        navigateFallback: "/index.html",
        // The book is asked each time, and a device is let in by the server alone.
        navigateFallbackDenylist: [/^\/api\//, /^\/let-in$/, /^\/authority\.crt$/],
        cleanupOutdatedCaches: true,
      },
    }),
  ],
  worker: { format: "es", rolldownOptions: { output: bare } },
  build: {
    // The licences of what is built in stand together in one file.
    license: { fileName: "licences.md" },
    rolldownOptions: {
      output: {
        ...bare,
        // What every place needs, in one file: compressed together it is smaller than in a dozen.
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [
            { name: "react", test: /node_modules\/(react|react-dom|scheduler)\// },
            { name: "core", test: IN_CORE },
          ],
        },
      },
    },
    outDir: "../../dist/web",
    emptyOutDir: true,
    // The budget of the first answer is measured from it (test/web/budget.test.ts).
    manifest: "manifest.json",
    modulePreload: { polyfill: false },
    // An image written into a style sheet would need a data: address there.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 700,
  },
});
