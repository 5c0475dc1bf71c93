// Brings the command into a few files. Node takes about as long to find and open a file as to read what is in it: from four
// hundred files of our own and of libraries a short command began three times as late. The doors of the library stay as the
// compiler writes them, one file a module.
import { relative, resolve } from "node:path";
import { build } from "vite";

/** What is started by its own name: the command, its threads, and what scripts/demo.mjs runs. */
const ENTRIES = ["main", "run", "terminal-io", "chain-worker", "sweep-worker"];

/**
 * What lies beside a module, a thread or a data file, is found from where that module stood before it was brought in.
 * @param {string} built where the modules stand
 * @param {string} folder where the files go
 */
function placesKept(built, folder) {
  return {
    name: "places-kept",
    transform: (code, id) =>
      !id.startsWith(built) || !code.includes("import.meta.url")
        ? null
        : code.replaceAll(
            "import.meta.url",
            `new URL(${JSON.stringify(relative(folder, id).replaceAll("\\", "/"))}, import.meta.url).href`,
          ),
  };
}

/**
 * @param {string} built the folder the compiler wrote to
 * @param {string} folder beside its cli/, where the files go: names of entries as before, and what they share
 */
export async function bundleCommand(built, folder) {
  const out = resolve(folder);
  const roomOf = (id) => (id.startsWith(resolve(built)) ? relative(built, id).split(/[\\/]/)[0] : "");
  await build({
    configFile: false,
    publicDir: false,
    logLevel: "warn",
    plugins: [placesKept(resolve(built), out)],
    // Binaries are found by their own packages; what may be left out of an install is looked for when it is asked for.
    ssr: { noExternal: true, external: ["better-sqlite3", "@resvg/resvg-js"], target: "node" },
    build: {
      ssr: true,
      outDir: out,
      emptyOutDir: true,
      target: "node20",
      minify: false,
      license: { fileName: "licences.md" },
      rolldownOptions: {
        input: Object.fromEntries(ENTRIES.map((name) => [name, resolve(built, `cli/${name}.js`)])),
        output: {
          entryFileNames: "[name].js",
          chunkFileNames: "part-[name].js",
          comments: { legal: false },
          // What nearly every command computes with is two files: dozens of small ones would take longer to be read. The rooms
          // themselves: figure/rode, which draws, is in neither.
          codeSplitting: {
            includeDependenciesRecursively: false,
            groups: [
              { name: "numeric", test: (id) => ["numeric", "statistics"].includes(roomOf(id)) },
              { name: "rode", test: (id) => roomOf(id) === "rode" && !id.endsWith("index.js") },
            ],
          },
        },
      },
    },
  });
}
