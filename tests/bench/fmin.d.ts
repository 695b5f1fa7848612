/** The part of fmin that the benches use; the package ships no types. */
declare module 'fmin/index.js' {
  export function nelderMead(
    f: (x: number[]) => number,
    start: number[],
    options?: { maxIterations?: number; minErrorDelta?: number; minTolerance?: number },
  ): { x: number[]; fx: number };
}
