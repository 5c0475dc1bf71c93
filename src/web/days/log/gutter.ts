/** Room of the axes beside a trace, px: what is laid over the trace is laid out with the same. */
export const GUTTER = { left: 58, right: 10, top: 8, bottom: 26 } as const;
