/** One channel of sound as a WAV file: RIFF, PCM, 16 bits (Multimedia Programming Interface and Data Specifications 1.0, 1991; value from memory). */
const HEADER_BYTES = 44;
const BYTES_A_SAMPLE = 2;
const PCM = 1;
const FULL_SCALE = 32_767;

/** Samples beyond ±1 are held there. */
export function wavFile(samples: Float32Array, samplesPerS: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(HEADER_BYTES + samples.length * BYTES_A_SAMPLE);
  const view = new DataView(bytes.buffer);
  const text = (at: number, words: string): void => bytes.set([...words].map((letter) => letter.charCodeAt(0)), at);
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, samplesPerS, true);
  view.setUint32(28, samplesPerS * BYTES_A_SAMPLE, true);
  view.setUint16(32, BYTES_A_SAMPLE, true);
  view.setUint16(34, 8 * BYTES_A_SAMPLE, true);
  text(36, 'data');
  view.setUint32(40, samples.length * BYTES_A_SAMPLE, true);
  samples.forEach((sample, at) => view.setInt16(HEADER_BYTES + at * BYTES_A_SAMPLE, Math.round(Math.min(1, Math.max(-1, sample)) * FULL_SCALE), true));
  return bytes;
}
