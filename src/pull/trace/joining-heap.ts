/** A heap of joinings, cheapest first; old entries are told by their stamp. */
export class JoiningHeap {
  size = 0;
  private cost: Float64Array;
  private key: Int32Array;
  private stamp: Int32Array;

  constructor(room: number) {
    this.cost = new Float64Array(4 * room + 4);
    this.key = new Int32Array(4 * room + 4);
    this.stamp = new Int32Array(4 * room + 4);
  }

  push(cost: number, key: number, stamp: number): void {
    let i = this.size++;
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (this.cost[up]! <= cost) break;
      this.move(up, i);
      i = up;
    }
    this.put(i, cost, key, stamp);
  }

  pop(): { cost: number; key: number; stamp: number } {
    const top = { cost: this.cost[0]!, key: this.key[0]!, stamp: this.stamp[0]! };
    const n = --this.size;
    const cost = this.cost[n]!;
    const key = this.key[n]!;
    const stamp = this.stamp[n]!;
    let i = 0;
    for (;;) {
      let down = 2 * i + 1;
      if (down >= n) break;
      if (down + 1 < n && this.cost[down + 1]! < this.cost[down]!) down++;
      if (this.cost[down]! >= cost) break;
      this.move(down, i);
      i = down;
    }
    if (n > 0) this.put(i, cost, key, stamp);
    return top;
  }

  private move(from: number, to: number): void {
    this.put(to, this.cost[from]!, this.key[from]!, this.stamp[from]!);
  }

  private put(i: number, cost: number, key: number, stamp: number): void {
    this.cost[i] = cost;
    this.key[i] = key;
    this.stamp[i] = stamp;
  }
}
