/** Lists of numbers that grow as a file is read, without knowing beforehand how long they get. */

export interface Growing<A extends Float64Array | Uint32Array> {
  length: number;
  array: A;
}

export const growingPlaces = (): Growing<Float64Array> => ({ length: 0, array: new Float64Array(FIRST_ROOM) });
export const growingCorners = (): Growing<Uint32Array> => ({ length: 0, array: new Uint32Array(FIRST_ROOM) });

const FIRST_ROOM = 3 * 4096;

export function addPlace(list: Growing<Float64Array>, x: number, y: number, z: number): void {
  if (list.length + 3 > list.array.length) {
    const wider = new Float64Array(2 * list.array.length);
    wider.set(list.array);
    list.array = wider;
  }
  const { array } = list;
  array[list.length++] = x;
  array[list.length++] = y;
  array[list.length++] = z;
}

export function addTriangle(list: Growing<Uint32Array>, a: number, b: number, c: number): void {
  if (list.length + 3 > list.array.length) {
    const wider = new Uint32Array(2 * list.array.length);
    wider.set(list.array);
    list.array = wider;
  }
  const { array } = list;
  array[list.length++] = a;
  array[list.length++] = b;
  array[list.length++] = c;
}
