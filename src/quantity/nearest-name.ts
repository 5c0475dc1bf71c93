/** The known name nearest to a mistyped one, or none when nothing is near: for the hint in an error. */
export function nearestName(typed: string, known: readonly string[]): string | undefined {
  const word = typed.toLowerCase();
  if (word.length > 40) return undefined;
  let nearest: string | undefined;
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const name of known) {
    const steps = distance(word, name.toLowerCase());
    if (steps < least) [nearest, least] = [name, steps];
  }
  return nearest;
}

/** Letters to add, drop, change or swap with a neighbour (restricted Damerau–Levenshtein). */
function distance(one: string, other: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: other.length + 1 }, (_, j) => j);
  for (let i = 1; i <= one.length; i++) {
    const row = [i];
    for (let j = 1; j <= other.length; j++) {
      const change = one[i - 1] === other[j - 1] ? 0 : 1;
      let steps = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + change);
      if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) {
        steps = Math.min(steps, beforeLast[j - 2]! + 1);
      }
      row.push(steps);
    }
    [beforeLast, last] = [last, row];
  }
  return last[other.length]!;
}
