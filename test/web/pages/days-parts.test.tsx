/** Parts of Days and of the frame round the places: what each shows of what it is given, and what a touch of it does. */
import { describe, expect, it } from "vitest";
import { AskFirst } from "../../../src/web/controls/ask-first.tsx";
import { Guess } from "../../../src/web/days/bring-in/guess.tsx";
import type { LogChoices, Preview } from "../../../src/web/days/bring-in/log-choices.ts";
import { ReadingState } from "../../../src/web/days/bring-in/reading-state.tsx";
import { WrittenOtherwise } from "../../../src/web/days/bring-in/written-otherwise.tsx";
import { DeviceList } from "../../../src/web/days/devices/device-list.tsx";
import { MarkPanel } from "../../../src/web/days/log/mark-panel.tsx";
import { MarksTable } from "../../../src/web/days/log/marks-table.tsx";
import { ReadingsTable } from "../../../src/web/days/log/readings-table.tsx";
import type { Window } from "../../../src/web/days/log/window.ts";
import { UndoButtons } from "../../../src/web/shell/undo-buttons.tsx";
import { UnreadAddress } from "../../../src/web/shell/unread-address.tsx";
import { addressNote } from "../../../src/web/state/address.ts";
import { createStore } from "../../../src/web/state/store.ts";
import { atHand } from "../../../src/web/state/undoable.ts";
import { drawnAlone, type Page } from "./page.tsx";

const drawn = drawnAlone();
const settled = () => new Promise((done) => setTimeout(done, 5));

describe("marks in words", () => {
  const mark = (id: string, from: number, to: number, more: object = {}) =>
    ({
      ...{ id, kind: "plateau", from, to, origin: "automatic", takenAway: false },
      ...{ automatic: null, byHand: null, value: null, u: 0, why: null },
      ...more,
    }) as never;
  const table = async (marks: never[], readOnly = true) => {
    const chosen: string[] = [];
    const view = createStore<Window>({ from: 0, to: 100 });
    const at = await drawn(
      <MarksTable
        {...{ marks, view, readOnly, chosen: "b", log: "l" }}
        whole={{ from: 0, to: 1000 }}
        valueOf={(one) => (one.id === "a" ? { value: 2600, u: 8 } : one.id === "b" ? { value: 0, u: 1 } : null)}
        onChoose={(id) => chosen.push(id)}
      />,
    );
    return { at, chosen, view };
  };
  const rows = (at: Page) => at.all("tbody tr").map((row) => [...row.children].map((cell) => cell.textContent!.trim()));
  it("have their kind, times, load and who made them", async () => {
    const { at } = await table([
      mark("a", 10, 20),
      mark("b", 30, 30, { kind: "peak", origin: "corrected" }),
      mark("c", 40, 41, { origin: "added" }),
      mark("d", 50, 51, { origin: "corrected", takenAway: true }),
    ]);
    expect(rows(at)).toEqual([
      ["plateau", "0:10.0", "0:20.0", "2600.0 ± 8.0 N", "automatic"],
      ["peak", "0:30.0", "", "", "corrected"],
      ["plateau", "0:40.0", "0:41.0", "", "by hand"],
      ["plateau", "0:50.0", "0:51.0", "", "taken away"],
    ]);
    expect(at.all("button[aria-pressed=true]").map((one) => one.textContent)).toEqual(["peak"]);
    expect(at.all("select")).toHaveLength(0);
    expect(at.text).toContain("Marks, 4");
  });
  it("bring one that is out of view, or wider than it, into the view, and leave one in view where it is", async () => {
    const { at, chosen, view } = await table([mark("in", 10, 20), mark("out", 300, 310), mark("wide", 0, 150)]);
    const press = (i: number) => at.fire(at.all("tbody button")[i]!, "click", { button: 0 });
    press(0);
    expect(view.get()).toEqual({ from: 0, to: 100 });
    press(1);
    expect(view.get()).toEqual({ from: 255, to: 355 });
    view.put({ from: 0, to: 100 });
    press(2);
    // Twice as wide as the mark, kept within the log.
    expect(view.get()).toEqual({ from: 0, to: 300 });
    expect(chosen).toEqual(["in", "out", "wide"]);
  });
  it("are ten at first, and all when asked", async () => {
    const { at } = await table(Array.from({ length: 11 }, (_, i) => mark(String(i), i, i + 1)));
    expect(rows(at)).toHaveLength(10);
    at.press("All 11");
    await settled();
    expect(rows(at)).toHaveLength(11);
    at.press("Fewer");
    await settled();
    expect(rows(at)).toHaveLength(10);
    const { at: ten } = await table(Array.from({ length: 10 }, (_, i) => mark(String(i), i, i + 1)));
    expect(ten.text).not.toContain("All 10");
    expect((await table([])).at.text).toBe("");
    expect((await table([], false)).at.text).toContain("Add a mark");
  });
  it("in hand are called otherwise, taken away and brought back", async () => {
    const did: unknown[] = [];
    const panel = (more: object = {}, readOnly = false) =>
      drawn(
        <MarkPanel
          mark={mark("a", 10, 20, more)}
          {...{ text: "plateau 2600 N", why: null, readOnly }}
          onClose={() => did.push("close")}
          onChange={(label, change) => did.push([label, change])}
        />,
      );
    let at = await panel();
    expect(at.text).toContain("0:10.0 to 0:20.0");
    at.fill("Call it", "drag");
    at.press("Take it away");
    at.press("Close this mark");
    expect(did).toEqual([
      ["call plateau drag", { change: "call", kind: "drag" }],
      ["take away plateau", { change: "take away" }],
      "close",
    ]);
    expect(at.text).not.toContain("As it was found");
    at = await panel({
      takenAway: true,
      origin: "corrected",
      byHand: { id: "h" },
      automatic: { kind: "peak", from_s: 5, to_s: null },
    });
    expect(at.text).toContain("taken away by hand");
    expect(at.text).toContain("The reduction found: peak, 0:05.0. It is kept");
    expect(at.text).toContain("As it was found");
    expect(at.all("select")).toHaveLength(0);
    at.press("Bring it back");
    expect(did.at(-1)).toEqual(["bring back plateau", { change: "bring back" }]);
    expect((await panel({}, true)).all("button")).toHaveLength(1);
  });
  it("beside them stand the readings in view in twenty stretches, least and greatest", async () => {
    const t = Float64Array.from({ length: 40 }, (_, i) => i + 0.5);
    const values = t.map((at) => (at > 10 && at < 12 ? Number.NaN : 1000 * at));
    const coarse = { readings: true, from: t, to: t, columns: new Map([["load", { min: values, max: values }]]) };
    const lane = { channel: "load", label: "load, kN", factor: 0.001 };
    const at = await drawn(
      <ReadingsTable
        lanes={[{ lane }] as never}
        stretches={{ coarse, fine: null } as never}
        view={createStore<Window>({ from: 0, to: 40 })}
        drawn={1}
      />,
    );
    const details = at.all("details")[0]!;
    Object.defineProperty(details, "open", { value: true });
    at.fire(details, "toggle");
    await settled();
    const told = rows(at);
    expect(told).toHaveLength(20);
    expect(told[0]).toEqual(["0:00", "0.5", "1.5"]);
    expect(told[1]).toEqual(["0:02", "2.5", "3.5"]);
    expect(told[5]).toEqual(["0:10", "–", "–"]);
    expect(told[19]).toEqual(["0:38", "38.5", "39.5"]);
  });
});

describe("a log file that is brought in", () => {
  const why = { kind: "title", title: "Load" } as never;
  const column = (number: number, as: string, unit: string, more: object = {}) => ({
    ...{ number, title: `T${number}`, as, unit, why, confidence: 0.9, examples: ["1", "2"] },
    ...more,
  });
  const table = (columns: object[], more: object = {}) =>
    ({
      remembered: false,
      guess: {
        ...{ kind: "table", questions: [], remarks: [], columns, headerLine: 3 },
        ...{ delimiter: { value: "comma", why: { kind: "told" } }, decimal: { value: ".", why: { kind: "told" } } },
        ...more,
      },
    }) as unknown as Preview;
  const guess = async (preview: Preview, told: LogChoices = {}) => {
    const said: LogChoices[] = [];
    return { said, at: await drawn(<Guess preview={preview} told={told} onTold={(next) => said.push(next)} />) };
  };
  it("has each column told by its role and its unit", async () => {
    const { at, said } = await guess(
      table([column(1, "time", ""), column(2, "load-2", "kN"), column(3, "not taken", ""), column(4, "unit", "")]),
    );
    expect(at.all("li").map((one) => one.getAttribute("data-taken"))).toEqual(["true", "true", null, "true"]);
    expect(at.text).toContain("titles in line 3");
    expect(at.text).toContain("decimals by a point");
    at.fill("What T3 is", "depth");
    expect(said.at(-1)).toEqual({ columns: ["depth=3"] });
    const unit = at.field("Unit of T2");
    at.fill("Unit of T2", "lbf");
    await settled();
    at.fire(unit, "keydown", { key: "a" });
    const before = said.length;
    at.fire(unit, "keydown", { key: "Enter" });
    expect(said.slice(before)).toEqual([{ columns: ["load=2:lbf"] }]);
    expect(at.all("[aria-label='Format of T1']")).toHaveLength(1);
    expect(at.all("[aria-label='Unit of T3'], [aria-label='Unit of T4']")).toHaveLength(0);
  });
  it("is told otherwise where it is written so, and left as found where nothing is said", async () => {
    const said: LogChoices[] = [];
    const at = await drawn(
      <WrittenOtherwise told={{ decimal: ",", zone: "Z", rate: 5 }} onTold={(next) => said.push(next)} />,
    );
    at.fill("Columns parted by", ";");
    at.fill("Decimals by a", "");
    const [zone, start] = at.all("input") as HTMLInputElement[];
    const type = async (input: HTMLInputElement, text: string) => {
      input.value = text;
      (input as unknown as { _valueTracker?: { setValue(text: string): void } })._valueTracker?.setValue("none");
      input.setAttribute("type", "text");
      at.fire(input, "input");
      await settled();
      at.fire(input, "keydown", { key: "Enter" });
    };
    await type(zone!, "Z ");
    await type(zone!, "+02:00 ");
    await type(start!, "2031-05-17");
    expect(said).toEqual([
      { decimal: ",", zone: "Z", rate: 5, delimiter: ";" },
      { zone: "Z", rate: 5 },
      { decimal: ",", zone: "+02:00", rate: 5 },
      { decimal: ",", zone: "Z", rate: 5, start: "2031-05-17" },
    ]);
  });
  it("says what it is where it is no table", async () => {
    expect((await guess({ guess: { kind: "notATable", why: "it is a picture" } } as never)).at.text).toContain(
      "No log could be made out: it is a picture.",
    );
    expect(
      (await guess({ guess: { kind: "packed", what: "an archive", expected: "its files" } } as never)).at.text,
    ).toBe("It is an archive: its files.");
    expect((await guess({ guess: { kind: "gpx" } } as never)).at.text).toBe("A GPX track.");
    expect((await guess({ guess: { kind: "marks" } } as never)).at.text).toBe(
      "Time marks: they become marks on the trace.",
    );
    const signalk = { kind: "signalk", timed: true, paths: { "a.b": 1, c: 2 }, questions: [], remarks: [] };
    expect((await guess({ guess: signalk } as never)).at.text).toBe("Deltas of Signal K, each with its time.a.b, c");
  });
  it("says how far its reading is, and what came of it", async () => {
    const state = async (reading: object, size = 200) => {
      const at = await drawn(<ReadingState sent={{ size, reading } as never} />);
      return [at.text, at.all("progress").map((one) => one.getAttribute("value"))];
    };
    expect(await state({ kind: "waiting" })).toEqual(["", []]);
    expect(await state({ kind: "reading", position: 50, rows: 1200 })).toEqual([
      "25 %, 1,200 readings in the book",
      ["0.25"],
    ]);
    expect((await state({ kind: "reading", position: 0, rows: 1 }, 0))[0]).toBe("0 %, 1 reading in the book");
    expect((await state({ kind: "failed" }))[0]).toBe("It could not be read.");
    expect((await state({ kind: "failed", error: { place: "a.csv", given: "", expected: "a log" } }))[0]).toBe(
      "a.csv: a log",
    );
    expect((await state({ kind: "done", answer: { kind: "already" } }))[0]).toContain("in the book already");
    expect((await state({ kind: "done", answer: { kind: "marks", marks: 2 } }))[0]).toBe("2 marks in the book.");
    expect((await state({ kind: "done", answer: { kind: "asks" } }))[0]).toContain("before the question below");
  });
});

describe("devices let in", () => {
  it("are withdrawn in two steps, the one that was asked for", async () => {
    const gone: string[] = [];
    const device = (id: string) => ({
      id,
      name: `phone ${id}`,
      addedAt: Date.UTC(2031, 4, 3, 12),
      seenAt: Date.UTC(2031, 5, 4, 12),
    });
    const at = await drawn(
      <DeviceList devices={[device("1"), device("2")] as never} onWithdraw={({ id }) => gone.push(id)} />,
    );
    expect(at.text).toContain("2 devices let in");
    expect(at.text).toMatch(/let in 3 May 2031.* · last here 4 Jun/);
    at.press("Withdraw phone 2");
    await settled();
    expect(gone).toEqual([]);
    expect(at.text).toContain("phone 2 is refused from its next request on");
    at.press("Leave it in");
    await settled();
    at.press("Withdraw phone 2");
    await settled();
    at.press("Withdraw its key");
    expect(gone).toEqual(["2"]);
    expect((await drawn(<DeviceList devices={[device("1")] as never} onWithdraw={() => {}} />)).text).toContain(
      "One device let in",
    );
  });
});

describe("round the places", () => {
  it("what would put something away is asked first, and what would not is done", async () => {
    let did = 0;
    const ask = (question: string | null) =>
      drawn(
        <AskFirst question={question} yes="Replace them" onYes={() => did++}>
          Paste
        </AskFirst>,
      );
    let at = await ask(null);
    at.press("Paste");
    expect(did).toBe(1);
    at = await ask("They are there already.");
    at.press("Paste");
    await settled();
    expect([did, at.text]).toEqual([1, "They are there already. Replace them Keep them"]);
    at.press("Keep them");
    await settled();
    expect([did, at.text]).toEqual([1, "Paste"]);
    at.press("Paste");
    await settled();
    at.press("Replace them");
    expect(did).toBe(2);
  });
  it("undo and redo work the place that is shown, each by its label", async () => {
    const store = createStore(0);
    atHand.put(store);
    const at = await drawn(<UndoButtons />);
    const told = () =>
      ["Undo", "Redo"].map((name) => [at.button(name).getAttribute("title"), at.button(name).hasAttribute("disabled")]);
    expect(told()).toEqual([
      ["Nothing to take back", true],
      ["Nothing to do again", true],
    ]);
    store.set(1, { label: "depth" });
    await settled();
    expect(told()[0]).toEqual(["Take back: depth (ctrl-z)", false]);
    at.press("Undo");
    await settled();
    expect([store.get(), told()[1]]).toEqual([0, ["Do again: depth (ctrl-shift-z)", false]]);
    at.press("Redo");
    expect(store.get()).toBe(1);
    atHand.put(null);
  });
  it("an address that was not read is told by name, five at most, until the note is closed", async () => {
    const problems = Array.from({ length: 7 }, (_, i) => ({ field: `f${i}`, given: '"x"', expected: "y is expected" }));
    addressNote.put({ kind: "refused", place: "rig", from: "address", given: "?a", problems });
    let at = await drawn(<UnreadAddress />);
    expect(at.all("li").map((one) => one.textContent)).toEqual([
      ...[0, 1, 2, 3, 4].map((i) => `f${i}: "x" is given; y is expected`),
      "and 2 more",
    ]);
    expect(at.text).toContain("This address cannot be read");
    at.press("Close this note");
    await settled();
    expect(at.text).toBe("");
    addressNote.put({ kind: "refused", place: "rig", from: "device", given: "?a", problems: problems.slice(0, 5) });
    at = await drawn(<UnreadAddress />);
    expect(at.text).toContain("What this device kept of this place cannot be read");
    expect(at.all("li")).toHaveLength(5);
    addressNote.put(null);
  });
});
