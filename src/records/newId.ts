/** Names for new players, lessons and try-outs: 120 bits of chance, so that two teachers' files never share one. */

export type NewId = () => string;

const BYTES = 15;

/** 20 characters of A–Z, a–z, 0–9, _ and -. Works without a secure context, where crypto.randomUUID is missing. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(BYTES));
  return btoa(String.fromCharCode(...bytes)).replaceAll('+', '-').replaceAll('/', '_');
}
