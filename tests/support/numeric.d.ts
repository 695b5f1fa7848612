/** What the tests use of a library that brings no types of its own. */
declare module 'numeric' {
  export function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[];
}
