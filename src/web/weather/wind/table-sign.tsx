import styles from "./chart.module.css";

/** A faint mark of its own for each published table, in their order. */
const SIGNS = [
  "M-4-4h8v8h-8Z",
  "M-4-4L4 4M4-4L-4 4",
  "M0-5V5M-5 0H5",
  "M-4.5 0a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0-9 0",
  "M0 5L5-4H-5Z",
] as const;

export function TableSign({ index }: { readonly index: number }) {
  return <path className={styles.table} d={SIGNS[index % SIGNS.length]!} />;
}
