import { useEffect, useRef } from "react";

/**
 * The report as it is saved, in a tree of its own: its style touches nothing of the bench, nor the bench's it. The page's
 * policy takes no style written into markup; a style sheet made here is none.
 */
export function ReportPreview({ html }: { readonly html: string }) {
  const holder = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = holder.current;
    if (element === null) return;
    const root = element.shadowRoot ?? element.attachShadow({ mode: "open" });
    // The style is taken out as text first: a document that is read has the bench's own policy.
    const [head = "", css = "", body = ""] = html.split(/<\/?style>/);
    const read = new DOMParser().parseFromString(head + body, "text/html");
    const style = new CSSStyleSheet();
    style.replaceSync(css.replaceAll(":root", ":host").replace(/(^|[}\n])body\{/, "$1main{"));
    root.adoptedStyleSheets = [style];
    root.replaceChildren(...[...read.body.children].map((child) => document.importNode(child, true)));
  }, [html]);
  return <div ref={holder} />;
}
