/** Where in the built viewer a page's own title and content go. */
export const PAGE_SLOTS = { title: "rodebench-page-title", content: "rodebench-page-content" } as const;
