/** How an anchor of the other maker answers a load: it stays while the ground resists more, and goes where it does not. */
export interface GroundShape {
  readonly ways: "firm" | "ploughs" | "breaks out" | "stick-slip";
  /** Most that the ground resists, N. */
  readonly most: number;
  /** Way in which the anchor digs itself in, m. */
  readonly digs: number;
  /** Resistance for each m/s, N s/m. */
  readonly thick: number;
  /** Share of the resistance left once it broke out. */
  readonly left: number;
  /** Way after which it has set again, m; infinite: never. */
  readonly again: number;
}

export interface Ground {
  /** Speed of the anchor at a load, m/s; the ground remembers how far it went. */
  speed(load: number, step: number): number;
  /** Dragged the other way it has to dig in anew. */
  turned(share: number): void;
}

export function groundOf(shape: GroundShape): Ground {
  let dug = 0.05 * shape.digs;
  let most = shape.most;
  let broken = Number.NaN;
  let slips = false;
  return {
    speed(load, step) {
      let resists = most * (1 - Math.exp(-dug / shape.digs));
      if (Number.isNaN(broken) && shape.ways === "breaks out" && load > most) broken = 0;
      if (broken >= 0) {
        resists = broken < shape.again ? shape.left * most : 1.5 * load + most;
        if (broken >= shape.again) {
          // Set again, better than before: it will not break out a second time.
          most *= 1.8;
          broken = -1;
        }
      }
      if (shape.ways === "stick-slip") {
        if (load > 0.97 * most) slips = true;
        if (load < shape.left * most) slips = false;
        if (dug > 3 * shape.digs) resists = slips ? shape.left * most : most;
      }
      const speed = Math.max(0, load - resists) / shape.thick;
      dug += speed * step;
      if (broken >= 0) broken += speed * step;
      return speed;
    },
    turned(share) {
      dug = 0.05 * shape.digs;
      most = share * shape.most;
      broken = Number.NaN;
      slips = false;
    },
  };
}
