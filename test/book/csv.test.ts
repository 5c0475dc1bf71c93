import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { readCsv, writeCsv } from "../../src/book/csv.ts";
import { newBook } from "../../src/book/index.ts";
import { folder, steadyPorts } from "./folder.ts";

const ID = "01970001-0000-7000-8000-000000000000";

describe("a table of records", () => {
  it("is read cell by cell as each field keeps it; an empty cell is nothing known", () => {
    expect(
      readCsv("about", "id,hidden,title,simulated\r\nx,true,Quay,true\r\ny,false,,false\r\nz,,a,\r\n", "t"),
    ).toEqual([
      { id: "x", hidden: true, title: "Quay", simulated: true },
      { id: "y", hidden: false, title: null, simulated: false },
      { id: "z", hidden: false, title: "a", simulated: null },
    ]);
    expect(readCsv("pull", 'number,depth_m,paidOut_m,steps\r\n3,-1.5e1,32.5,"[{""load_N"":1}]"\r\n', "t")).toEqual([
      { number: 3, depth_m: -15, paidOut_m: 32.5, steps: [{ load_N: 1 }] },
    ]);
  });

  it.each([
    ["about", "simulated\r\nyes\r\n", 't: row 2, column simulated: "yes"; true or false is expected'],
    [
      "about",
      "title,simulated\r\na,true\r\na,TRUE\r\n",
      't: row 3, column simulated: "TRUE"; true or false is expected',
    ],
    ["pull", "depth_m\r\ndeep\r\n", 't: row 2, column depth_m: "deep"; a depth in m, 0 or more, is expected'],
    ["pull", "depth_m\r\n1e999\r\n", 't: row 2, column depth_m: "1e999"; a depth in m, 0 or more, is expected'],
    ["pull", 'depth_m,scope\r\n" ",2\r\n', 't: row 2, column depth_m: " "; a depth in m, 0 or more, is expected'],
    ["pull", "paidOut_m\r\n32 m\r\n", 't: row 2, column paidOut_m: "32 m"; a length in m, above 0, is expected'],
    ["pull", "number\r\n0x10 m\r\n", 't: row 2, column number: "0x10 m"; a whole number, 0 or more, is expected'],
    ["pull", "steps\r\n[\r\n", "t: row 2, column steps: not JSON"],
    ["site", 'name\r\n"open\r\n', "t: "],
  ] as const)("of %s is refused in one line: %j", (kind, text, line) => {
    expect(() => readCsv(kind, text, "t")).toThrow(line);
  });

  it("is written with a row of names, ids first, and lines of the standard (RFC 4180)", () => {
    const text = writeCsv("site", [
      { id: "a", hidden: false, name: 'say "x", y', latitude_deg: 1, longitude_deg: null, description: undefined },
    ]);
    expect(text).toBe('id,hidden,name,latitude_deg,longitude_deg,description\r\na,false,"say ""x"", y",1,,\r\n');
  });
});

describe("what a spreadsheet would take for a formula", () => {
  it.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "'=1", "''@x", '=HYPERLINK("http://x")', "'quoted'", "a=1", "'"])(
    "%j is text in the table, and comes back as it was",
    (name) => {
      const text = writeCsv("site", [{ id: ID, hidden: false, name, latitude_deg: -1.5 }]);
      const cells = Papa.parse<string[]>(text).data[1]!;
      expect(cells[2]).not.toMatch(/^[=+\-@\t\r]/);
      // Numbers are no text: a spreadsheet reads them as such.
      expect(cells[3]).toBe("-1.5");
      expect(readCsv("site", text, "t")).toMatchObject([{ name, latitude_deg: -1.5 }]);
    },
  );
});

describe("records of a folder, edited by hand", () => {
  const takenIn = async (files: Record<string, string>) => {
    const at = folder();
    for (const made of ["records", "tables"]) mkdirSync(join(at, "open", made), { recursive: true });
    for (const [name, text] of Object.entries(files)) writeFileSync(join(at, "open", name), text);
    const book = newBook(join(at, "a.book"), { title: "T" }, { ports: steadyPorts(), backups: false });
    try {
      const { edited } = await book.import(join(at, "open"));
      return { edited, sites: book.list("site", { hidden: "with" }) };
    } finally {
      book.close();
    }
  };

  it("are taken in with the id and the state they have, or a new id", async () => {
    const { edited, sites } = await takenIn({
      "records/site.jsonl": `{"id":"${ID}","hidden":true,"name":"Ebb Cove"}\n\n{"name":"Far Cove"}\n`,
    });
    expect(edited).toBe(2);
    expect(sites.find((s) => s.id === ID)).toMatchObject({ hidden: true, name: "Ebb Cove" });
    expect(sites.find((s) => s.id !== ID)).toMatchObject({ hidden: false, name: "Far Cove" });
  });

  it("are read from the lines where there are both, else from the table", async () => {
    const lines = `{"id":"${ID}","name":"by line"}\n`;
    const table = `id,name\r\n${ID},by table\r\n`;
    expect((await takenIn({ "records/site.jsonl": lines, "tables/site.csv": table })).sites[0]!.name).toBe("by line");
    expect((await takenIn({ "tables/site.csv": table })).sites[0]!.name).toBe("by table");
  });

  it.each([
    ["[1]\n", "line 1: not an object"],
    ["7\n", "line 1: not an object"],
    ["null\n", "line 1: not an object"],
    ['{"name":"a"}\n"x"\n', "line 2: not an object"],
    ["{\n", "line 1: not JSON"],
    ['{"id":"x","name":"a"}\n', 'site 1.id: "x"; a UUID of version 7 is expected'],
    ['{"hidden":"no","name":"a"}\n', 'site 1.hidden: "no"; true or false is expected'],
    ['{"name":"a","colour":1}\n', "site 1.colour: no such field"],
  ])("that are none are told with their place: %j", async (text, line) => {
    await expect(takenIn({ "records/site.jsonl": text })).rejects.toThrow(line);
  });
});
