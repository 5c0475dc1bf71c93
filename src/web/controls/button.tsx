import type { ComponentProps } from "react";
import styles from "./button.module.css";

/** A button of the bench: `plain` on a surface, `strong` for the one thing to do, `bare` for a sign alone. */
export function Button({
  look = "plain",
  className,
  ...rest
}: ComponentProps<"button"> & { readonly look?: "plain" | "strong" | "bare" }) {
  return <button type="button" {...rest} className={`${styles.button} ${styles[look]} ${className ?? ""}`} />;
}
