import type { SqlDriver } from "../driver.ts";

/** Version 6: a pull knows the length of rode paid out, which says more than the scope. */
export function paidOut(driver: SqlDriver): void {
  driver.exec("ALTER TABLE pull ADD COLUMN paidOut_m REAL");
}
