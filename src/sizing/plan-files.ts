/** Files a plan names, by the path that stands in it: their text, and what errors call them. */
export type PlanFiles = Readonly<Record<string, { readonly text: string; readonly place: string }>>;
