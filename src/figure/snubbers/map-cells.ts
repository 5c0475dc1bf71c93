/** A map of codes as areas to be drawn: the cells of one code as one path, its border with the rest, a place for its name. */

export interface MapFrame {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface Region {
  readonly code: number;
  readonly cells: number;
  /** Its cells, runs of one row as one oblong. */
  readonly path: string;
  /** Middle of its widest stretch, px, and how wide it is there. */
  readonly label: { readonly x: number; readonly y: number; readonly width: number };
}

const p = (value: number): string => String(Math.round(value * 10) / 10);

/** @param codes row by row, the lowest row first; `columns` of them a row */
export function regionsOf(codes: ArrayLike<number>, columns: number, frame: MapFrame): readonly Region[] {
  const rows = codes.length / columns;
  const [w, h] = [frame.width / columns, frame.height / rows];
  const gathered = new Map<
    number,
    { cells: number; path: string; runs: { row: number; from: number; to: number }[] }
  >();
  for (let row = 0; row < rows; row++) {
    for (let from = 0; from < columns; ) {
      const code = codes[row * columns + from]!;
      let to = from + 1;
      while (to < columns && codes[row * columns + to] === code) to++;
      const region = gathered.get(code) ?? { cells: 0, path: "", runs: [] };
      gathered.set(code, region);
      region.cells += to - from;
      region.runs.push({ row, from, to });
      region.path += `M${p(frame.left + from * w)} ${p(frame.top + (rows - 1 - row) * h)}h${p((to - from) * w)}v${p(h)}h${p((from - to) * w)}Z`;
      from = to;
    }
  }
  return [...gathered].map(([code, { cells, path, runs }]) => {
    // The widest run, and of those as wide within a cell the one nearest their middle: a name stands in the thick of it.
    const widest = Math.max(...runs.map(({ from, to }) => to - from));
    const wide = runs.filter(({ from, to }) => to - from >= widest - 1);
    const run = wide[Math.floor(wide.length / 2)]!;
    return {
      code,
      cells,
      path,
      label: {
        x: frame.left + ((run.from + run.to) / 2) * w,
        y: frame.top + (rows - 0.5 - run.row) * h,
        width: (run.to - run.from) * w,
      },
    };
  });
}

/** The border between code 0 and all others. */
export function borderOf(codes: ArrayLike<number>, columns: number, frame: MapFrame): string {
  const rows = codes.length / columns;
  const [w, h] = [frame.width / columns, frame.height / rows];
  const within = (row: number, column: number): boolean => codes[row * columns + column] === 0;
  let d = "";
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [x, y] = [frame.left + column * w, frame.top + (rows - 1 - row) * h];
      if (column + 1 < columns && within(row, column) !== within(row, column + 1)) d += `M${p(x + w)} ${p(y)}v${p(h)}`;
      if (row + 1 < rows && within(row, column) !== within(row + 1, column)) d += `M${p(x)} ${p(y)}h${p(w)}`;
    }
  }
  return d;
}
