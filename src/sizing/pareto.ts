/**
 * The candidates no other beats: none is as good in every criterion and better in one. Less is better throughout; figures
 * within a millionth of each other are equal.
 * @returns places in the list, rising; of equals all stay
 */
export function notBeaten(scores: readonly (readonly number[])[]): readonly number[] {
  return scores.flatMap((own, i) => (scores.some((other, j) => j !== i && beats(other, own)) ? [] : [i]));
}

const SAME = 1e-6;

function beats(a: readonly number[], b: readonly number[]): boolean {
  let better = false;
  for (let k = 0; k < a.length; k++) {
    const [x, y] = [a[k]!, b[k]!];
    const close = x === y || Math.abs(x - y) <= SAME * Math.max(Math.abs(x), Math.abs(y));
    if (close) continue;
    if (x > y) return false;
    better = true;
  }
  return better;
}
