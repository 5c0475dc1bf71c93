/**
 * Waits until something holds, however long that takes on a busy machine: a test that waits for what never comes ends
 * by its own time limit.
 */
export async function waitFor(holds: () => boolean | Promise<boolean>): Promise<void> {
  while (!(await holds())) await new Promise((done) => setTimeout(done, 5));
}
