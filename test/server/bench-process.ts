// A bench of its own process, to be killed: `node --import tsx bench-process.ts BOOK`. Prints its address.
import { openBook } from "../../src/book/index.ts";
import { bookTopics, openBench } from "../../src/server/index.ts";

const book = openBook(process.argv[2]!, { who: "test" });
const bench = await openBench({
  topics: bookTopics(book),
  builtFolder: "",
  devicesFile: "",
  port: 0,
  now: Date.now,
  fault: (error) => console.error(error),
});
console.log(bench.address);
