/**
 * The bench in a document of its own, without a browser: React draws the real places into linkedom, the worker's work is
 * done in this process, and requests go to whoever is given. Nothing is laid out: every element has one size.
 *
 *     const page = await openPlace("/match");
 *     page.fill("depth", "9 m");
 *     expect(page.reading("scope")).toBe("3.2");
 */

import { parseHTML } from "linkedom";
import { Component, type ReactNode } from "react";
import { afterEach } from "vitest";
import { waitFor } from "../../support/wait-for.ts";

export const SIZE = { width: 800, height: 500 } as const;

const { window, document } = parseHTML(
  '<!doctype html><html><head></head><body><div id="bench"></div></body></html>',
) as unknown as {
  window: Record<string, never> & { Element: { prototype: object }; Event: typeof Event };
  document: Document;
};

class Observer {
  observe(): void {}
  unobserve(): void {}
  disconnect(): void {}
}

Object.assign(window.Element.prototype, {
  getBoundingClientRect: () => ({ x: 0, y: 0, left: 0, top: 0, right: SIZE.width, bottom: SIZE.height, ...SIZE }),
  scrollIntoView: () => undefined,
  scrollTo: () => undefined,
  focus: () => undefined,
  blur: () => undefined,
  setPointerCapture: () => undefined,
  releasePointerCapture: () => undefined,
  hasPointerCapture: () => true,
});

// React asks the document whether it knows of input; SVG's elements know their drawing.
Object.assign(document, { oninput: null });
Object.defineProperty(window.Element.prototype, "ownerSVGElement", {
  get(this: Element) {
    return this.parentElement?.closest("svg") ?? null;
  },
  set() {},
});

/** What the page asks of its window; a worker asks its own the same way, for messages. */
const onPage = new EventTarget();
const onWork = new Set<(event: { data: unknown }) => void>();
const pages = new Set<(event: { data: unknown }) => void>();

/** A worker whose work is done here: what goes to and fro is cloned, as between threads. */
class WorkHere extends EventTarget {
  readonly #listening = new Set<(event: { data: unknown }) => void>();
  override addEventListener(type: string, listener: never): void {
    if (type === "message") {
      this.#listening.add(listener);
      pages.add(listener);
    } else super.addEventListener(type, listener);
  }
  override removeEventListener(type: string, listener: never): void {
    if (type === "message") pages.delete(listener);
    else super.removeEventListener(type, listener);
  }
  postMessage(data: unknown, transfer: never[] = []): void {
    const clone = structuredClone(data, { transfer });
    void import("../../../src/web/work/bench-worker.ts").then(() => {
      for (const listener of onWork) listener({ data: clone });
    });
  }
  terminate(): void {
    for (const listener of this.#listening) pages.delete(listener);
  }
}

const kept = new Map<string, string>();
const globals: Record<string, unknown> = {
  window: globalThis,
  self: globalThis,
  document,
  addEventListener: (type: string, listener: never) =>
    type === "message" ? onWork.add(listener) : onPage.addEventListener(type, listener),
  removeEventListener: (type: string, listener: never) =>
    type === "message" ? onWork.delete(listener) : onPage.removeEventListener(type, listener),
  dispatchEvent: (event: Event) => onPage.dispatchEvent(event),
  postMessage: (data: unknown, transfer: never[] = []) => {
    const clone = structuredClone(data, { transfer });
    for (const listener of [...pages]) listener({ data: clone });
  },
  Worker: WorkHere,
  ResizeObserver: Observer,
  IntersectionObserver: Observer,
  matchMedia: (media: string) => ({ matches: false, media, addEventListener() {}, removeEventListener() {} }),
  requestAnimationFrame: (act: (at: number) => void) => setTimeout(() => act(performance.now()), 0),
  cancelAnimationFrame: (id: ReturnType<typeof setTimeout>) => clearTimeout(id),
  CSS: { supports: () => false, escape: (text: string) => text },
  // No styles are worked out here: letters are of the size a browser begins with.
  getComputedStyle: () => ({ fontSize: "16px", getPropertyValue: () => "" }),
  devicePixelRatio: 1,
  innerWidth: SIZE.width,
  innerHeight: SIZE.height,
  scrollTo: () => undefined,
  history: { pushState: () => undefined, replaceState: () => undefined, back: () => undefined },
  localStorage: {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, text: string) => void kept.set(name, text),
    removeItem: (name: string) => void kept.delete(name),
  },
};
const classes = [
  "Node",
  "Element",
  "HTMLElement",
  "HTMLInputElement",
  "HTMLTextAreaElement",
  "HTMLSelectElement",
  "HTMLIFrameElement",
  "SVGElement",
  "DocumentFragment",
  "MutationObserver",
  "Text",
];
for (const name of classes) globals[name] = window[name] ?? class {};
for (const [name, value] of Object.entries(globals))
  Object.defineProperty(globalThis, name, { value, writable: true, configurable: true });

const plain = (text: string | null): string => (text ?? "").replace(/\s+/g, " ").trim();

/** A document that one place is drawn in. */
export class Page {
  readonly root: Element;
  readonly close: () => void;
  constructor(root: Element, close: () => void) {
    this.root = root;
    this.close = close;
  }

  /** All words of the place, as they stand. */
  get text(): string {
    return plain(this.root.textContent);
  }

  all(selector: string): Element[] {
    return [...this.root.querySelectorAll(selector)];
  }

  /** The one element that holds; told when there are none or several. */
  one(what: string, among: readonly Element[]): Element {
    if (among.length !== 1) throw new Error(`${among.length} of: ${what}\n${this.text}`);
    return among[0]!;
  }

  /** What a number shows, without its name: "12.3 N ± 0.4 N". */
  reading(name: string, at = 0): string {
    const named = this.all("dt").filter((dt) => plain(dt.textContent) === name);
    if (named.length <= at) throw new Error(`no number ${name}\n${this.text}`);
    return plain(named[at]!.nextElementSibling!.textContent);
  }

  /** The input, select or area with this label. */
  field(label: string, at = 0): HTMLInputElement {
    const labelled = this.all("label")
      .filter((one) =>
        [one.textContent, one.querySelector("span")?.textContent, one.firstChild?.textContent].some(
          (text) => plain(text ?? "") === label,
        ),
      )
      .map((one) => {
        const id = one.getAttribute("for");
        return id === null ? one.querySelector("input, select, textarea") : this.all("[id]").find((e) => e.id === id);
      });
    const found = [...labelled, ...this.all(`[aria-label="${label}"]`)].filter((one) => one != null);
    if (found.length <= at) throw new Error(`no field ${label}\n${this.text}`);
    return found[at] as HTMLInputElement;
  }

  /** Types a text into a field, or takes an option of a choice by its value. */
  fill(label: string, text: string, at = 0): void {
    const field = this.field(label, at);
    // A choice has no value of its own here that React could read; of a field React compares with what it wrote last.
    if (field.tagName === "SELECT")
      Object.defineProperty(field, "value", { value: text, configurable: true, writable: true });
    else {
      // React hears input of what it knows for text; where no type is stated a browser says so itself.
      if (field.tagName === "INPUT" && !field.hasAttribute("type")) field.setAttribute("type", "text");
      field.value = text;
    }
    (field as unknown as { _valueTracker?: { setValue(text: string): void } })._valueTracker?.setValue(`not ${text}`);
    this.fire(field, field.tagName === "SELECT" ? "change" : "input");
  }

  button(name: string, at = 0): Element {
    const found = this.all("button, a, [role=button], summary").filter(
      (one) => plain(one.getAttribute("aria-label") ?? one.textContent) === name,
    );
    if (found.length <= at) throw new Error(`no button ${name}\n${this.text}`);
    return found[at]!;
  }

  press(name: string, at = 0): void {
    this.fire(this.button(name, at), "click", { button: 0 });
  }

  /** Sets a radio button or box by its label. */
  choose(label: string, at = 0): void {
    const input = this.all("label")
      .filter((one) => plain(one.textContent) === label)
      .map((one) => one.querySelector("input[type=radio], input[type=checkbox]"))
      .filter((one) => one !== null)[at];
    if (input === undefined) throw new Error(`no choice ${label}\n${this.text}`);
    (input as HTMLInputElement).checked =
      input.getAttribute("type") === "radio" || !(input as HTMLInputElement).checked;
    this.fire(input, "click", { button: 0 });
  }

  fire(element: Element, type: string, more: object = {}): void {
    const event = new window.Event(type, { bubbles: true, cancelable: true });
    const usual = { clientX: 0, clientY: 0, pointerId: 1, pointerType: "mouse", isPrimary: true, key: "", detail: 1 };
    for (const [name, value] of Object.entries({ ...usual, ...more }))
      Object.defineProperty(event, name, { value, configurable: true });
    element.dispatchEvent(event as unknown as Event);
  }

  /** Waits for what React and the worker have yet to do. */
  async until(holds: () => boolean): Promise<void> {
    await waitFor(() => {
      if (this.text.includes("FAULT")) throw new Error(this.text);
      return holds();
    });
  }
}

/** Draws one place at an address such as "/match?load=2000", and nothing of the shell round it. */
export async function openPlace(address: string): Promise<Page> {
  const { places } = await import("../../../src/web/places.ts");
  const { location } = await import("../../../src/web/state/location.ts");
  const [path = "", search] = address.split("?");
  location.put({ path, search: search === undefined ? "" : `?${search}` });
  const { Place } = await places.find((place) => place.path === path)!.load();
  return openDrawn(<Place />);
}

/** Draws a part of a place by itself: what a place has beside it takes its time. */
export async function openDrawn(part: ReactNode): Promise<Page> {
  const { createRoot } = await import("react-dom/client");
  const { flushSync } = await import("react-dom");
  const home = document.createElement("div");
  document.body.append(home);
  const root = createRoot(home);
  flushSync(() => root.render(<Told>{part}</Told>));
  return new Page(home, () => {
    root.unmount();
    home.remove();
  });
}

/** Draws parts one after another, each in the place of the one before; the last is taken away after its claim. */
export function drawnAlone(): (part: ReactNode) => Promise<Page> {
  let page: Page | undefined;
  const close = (): void => {
    page?.close();
    page = undefined;
  };
  afterEach(close);
  return async (part) => {
    close();
    page = await openDrawn(part);
    return page;
  };
}

/** A place that fails while it is drawn is told as text. */
class Told extends Component<{ readonly children: ReactNode }, { readonly error: unknown }> {
  override state: { readonly error: unknown } = { error: null };
  static getDerivedStateFromError(error: unknown) {
    return { error };
  }
  override render(): ReactNode {
    const { error } = this.state;
    return error === null ? this.props.children : <p>{`FAULT ${String((error as Error).stack ?? error)}`}</p>;
  }
}
