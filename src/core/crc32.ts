/** CRC-32 with the polynomial of IEEE 802.3, reflected: 0xCBF43926 for the bytes of "123456789" (the check value usually stated with it). */
const POLYNOMIAL = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ POLYNOMIAL : rest >>> 1;
  return rest;
});

/** A whole number from 0 to 2³² − 1; `before` goes on from what came earlier. Finds every damage within 32 bits in a row. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let rest = ~before;
  for (const byte of bytes) rest = (rest >>> 8) ^ (TABLE[(rest ^ byte) & 0xff] as number);
  return ~rest >>> 0;
}
