/** Within a frame: tells the page around it how high this one is, so that it can make room. Nothing else is ever sent. */
export function tellHeight(content: HTMLElement): void {
  if (globalThis.parent === globalThis.self) return;
  let told = 0;
  const tell = (): void => {
    const height = Math.ceil(content.getBoundingClientRect().height);
    if (height === told) return;
    told = height;
    // To whoever frames it: a height is no secret, and a page opened from a file has no name of its own.
    globalThis.parent.postMessage({ format: "rodebench/page-size@1", height_px: height }, "*");
  };
  new ResizeObserver(tell).observe(content);
  tell();
}
