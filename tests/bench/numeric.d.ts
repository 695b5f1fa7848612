/** The part of numeric that the benches use; the package ships no types. */
declare module 'numeric' {
  const numeric: {
    uncmin(
      f: (x: number[]) => number,
      start: number[],
      tolerance?: number,
    ): { solution: number[]; f: number; iterations: number; message: string };
  };
  export default numeric;
}
