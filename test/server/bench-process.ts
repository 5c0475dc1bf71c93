// A bench of its own process, to be killed: `node --import tsx bench-process.ts BOOK`. Prints its address.
import { openBook } from "../../src/book/index.ts";
import { bookTopics, openBench } from "../../src/server/index.ts";

const book = openBook(process.argv[2]!, { who: "test" });
const fault = (error: unknown) => console.error(error);
const { topics } = bookTopics(book, { sentFolder: `${process.argv[2]}.sent`, now: Date.now, fault });
const bench = await openBench({
  topics,
  builtFolder: "",
  devicesFile: "",
  port: 0,
  now: Date.now,
  fault,
});
console.log(bench.address);
