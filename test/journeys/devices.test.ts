import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Book, createDemoBook, openBook } from "../../src/book/index.ts";
import { type Bench, bookTopics, openBench } from "../../src/server/index.ts";
import { readSquareCode } from "../support/read-square-code.ts";
import {
  axeViolations,
  builtCopy,
  chromiumPath,
  freshDevices,
  keptOffline,
  PATIENCE,
  sideways,
  sizes,
} from "./harness.ts";

const chromium = chromiumPath();
const journey = chromium === null ? describe.skip : describe;
type Devices = ReturnType<typeof freshDevices>;
type BenchPage = Awaited<ReturnType<Devices["page"]>>;

/** Two slow cores under load. */
const SLOW = { timeout: PATIENCE };

const button = (page: BenchPage, name: string | RegExp) => page.getByRole("button", { name, exact: true });

/** What an independent reader finds in the code as it is shown. */
async function readCode(page: BenchPage): Promise<string | null> {
  const url = `data:image/png;base64,${(await page.getByRole("img", { name: /^QR code of/ }).screenshot()).toString("base64")}`;
  const { data, width, height } = await page.evaluate(async (from) => {
    const image = new Image();
    image.src = from;
    await image.decode();
    const canvas = Object.assign(document.createElement("canvas"), { width: image.width, height: image.height });
    const paper = canvas.getContext("2d")!;
    paper.drawImage(image, 0, 0);
    const pixels = paper.getImageData(0, 0, image.width, image.height);
    return { data: [...pixels.data], width: pixels.width, height: pixels.height };
  }, url);
  return readSquareCode(Uint8ClampedArray.from(data), width, height);
}

/** Without rule of axe broken, and without anything that sticks out sideways. */
async function inOrder(page: BenchPage, where: string): Promise<void> {
  expect(await axeViolations(page), where).toEqual([]);
  await expect.poll(() => sideways(page), { ...SLOW, message: where }).toBeLessThanOrEqual(0);
}

async function writePull(page: BenchPage, remarks: string): Promise<void> {
  await button(page, "Add a pull").click(SLOW);
  await page.getByLabel("Remarks").fill(remarks);
  await button(page, "Write it down").click();
  await page.locator("form").waitFor({ state: "detached", ...SLOW });
}

journey("letting a second device in, and taking its key back", () => {
  const folder = mkdtempSync(join(tmpdir(), "devices-journey-"));
  const path = join(folder, "journey.book");
  const devices = freshDevices(chromium ?? "");
  const faults: unknown[] = [];
  let book: Book;
  let bench: Bench;
  let stop: () => Promise<void>;
  beforeAll(async () => {
    const builtFolder = builtCopy(folder);
    createDemoBook(path).close();
    book = openBook(path, { who: "this computer" });
    const fault = (error: unknown) => void faults.push(error);
    const served = bookTopics(book, { sentFolder: join(folder, "sent"), now: Date.now, fault });
    stop = served.stop;
    bench = await openBench({
      topics: served.topics,
      builtFolder,
      devicesFile: join(folder, "devices.json"),
      port: 0,
      now: Date.now,
      // Whatever networks the machine is on: an address that is not the computer's own seat is a device's.
      ownAddresses: () => ["127.0.0.2"],
      fault,
    });
  });
  afterAll(async () => {
    await devices.close();
    await bench?.close();
    await stop?.();
    book?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const withRemarks = (remarks: string) => book.list("pull").filter((pull) => pull.remarks === remarks);

  it("opens, lets a phone in by its code, withdraws its key; what the phone then writes waits, and joins once", async () => {
    const desk = await devices.page(sizes.desk);
    await desk.goto(`${bench.address}/days`);
    await button(desk, "Devices").click(SLOW);
    await desk.getByRole("heading", { name: "Closed" }).waitFor(SLOW);
    await desk.getByText("Every device that is let in can read and change the whole book", { exact: false }).waitFor();
    // The deliberate act, as `rodebench open --boat-network` does it at the computer.
    const opened = await bench.openToBoatNetwork({ encryption: { kind: "none" } });
    await desk.getByRole("heading", { name: "Open to the boat's network" }).waitFor(SLOW);
    await desk.getByText(opened.addresses[0]!, { exact: true }).waitFor();
    await desk.getByRole("img", { name: `QR code of ${opened.addresses[0]}` }).waitFor(SLOW);
    await expect.poll(() => readCode(desk), SLOW).toBe(opened.addresses[0]);
    await desk.getByLabel("Theme").selectOption("dark");
    await expect.poll(() => readCode(desk), SLOW).toBe(opened.addresses[0]);
    await desk.getByLabel("Theme").selectOption("light");
    await desk.getByText("What travels is not encrypted", { exact: false }).waitFor();
    await button(desk, "Let a device in").click();
    const code = desk.getByText(/^\d{4} \d{4}$/);
    await code.waitFor(SLOW);
    await inOrder(desk, "the code at the computer");
    const first = (await code.textContent())!;

    const phone = await devices.page(sizes.phone, { keepsOffline: true });
    await phone.goto(`${opened.addresses[0]}/days`);
    await phone.getByRole("heading", { name: "Let this device in" }).waitFor(SLOW);
    await inOrder(phone, "the page that asks for the code");
    const give = async (typed: string) => {
      await phone.getByLabel("Code").fill(typed);
      await phone.getByLabel(/^Name of this device/).fill("Foredeck phone");
      await button(phone, "Let it in").click();
    };
    // The code of the terminal ended when a new one was made.
    await give(opened.code);
    await phone.getByText("That is not the code. Tries left: 4.").waitFor(SLOW);
    await give(first);
    await phone.getByRole("navigation", { name: "Places" }).waitFor(SLOW);
    // The computer shows who came, without being asked.
    await desk.getByText("Foredeck phone is let in; the code is used up.").waitFor(SLOW);
    await button(desk, "Withdraw Foredeck phone").waitFor(SLOW);
    await expect.poll(() => desk.getByText(first, { exact: true }).count(), SLOW).toBe(0);

    await phone.goto(`${opened.addresses[0]}/days`);
    await writePull(phone, "let in");
    await expect.poll(() => withRemarks("let in").length, SLOW).toBe(1);
    expect(book.history({ record: withRemarks("let in")[0]!.id })[0]).toMatchObject({ who: "Foredeck phone" });
    await expect.poll(() => phone.getByRole("button", { name: "Devices" }).count(), SLOW).toBe(0);
    await keptOffline(phone);

    await button(desk, "Withdraw Foredeck phone").click();
    await inOrder(desk, "asked whether the key is to be withdrawn");
    await button(desk, "Withdraw its key").click();
    const answered = () => phone.evaluate(async () => (await fetch("/api/1/records/pull")).status);
    await expect.poll(answered, SLOW).toBe(401);
    await button(desk, "Withdraw Foredeck phone").waitFor({ state: "detached", ...SLOW });

    // Refused from its next request on, told so, and nothing lost.
    await phone.goto(`${opened.addresses[0]}/days?shelf=days`);
    const refused = phone.getByText("This device is not let in: its key was withdrawn", { exact: false });
    await refused.waitFor(SLOW);
    // What it last saw is still there to look up.
    await phone.getByRole("heading", { name: String(book.about().title) }).waitFor(SLOW);
    const before = book.list("pull").length;
    await writePull(phone, "while withdrawn");
    await phone.getByText("1 change waits on this device for the book.", { exact: false }).waitFor(SLOW);
    await phone.getByText("while withdrawn").first().waitFor(SLOW);
    await inOrder(phone, "a device that is not let in any more");
    expect(await answered()).toBe(401);
    await phone.reload();
    await phone.getByText("while withdrawn").first().waitFor(SLOW);
    await refused.waitFor(SLOW);
    expect(book.list("pull").length).toBe(before);

    await button(desk, "Let another device in").click();
    await code.waitFor(SLOW);
    await phone.getByRole("link", { name: "Type the code" }).first().click();
    await give((await code.textContent())!);
    await expect.poll(() => withRemarks("while withdrawn").length, SLOW).toBe(1);
    await phone.getByText("1 change waits on this device for the book.", { exact: false }).waitFor({
      state: "detached",
      ...SLOW,
    });
    await phone.goto(`${opened.addresses[0]}/days?shelf=days`);
    await phone.getByRole("heading", { name: String(book.about().title) }).waitFor(SLOW);
    await expect.poll(() => refused.count(), SLOW).toBe(0);
    expect(withRemarks("while withdrawn")).toHaveLength(1);
    expect(faults).toEqual([]);
    expect(desk.troubles).toEqual([]);
    expect(phone.troubles).toEqual([]);
  });
});
