/** The worker in which a body is built, checked and written to both its files; it is stopped by ending it. */
import { type HeldFigures, type HeldWish, heldThing } from '../solids/heldThings';
import { glbFile, stlFile } from '../solids/solidFiles';
import type { NotSolid } from '../solids/solid';

export interface SolidFiles {
  readonly kind: 'made';
  readonly stl: Uint8Array<ArrayBuffer>;
  readonly glb: Uint8Array<ArrayBuffer>;
  readonly figures: HeldFigures;
}

export type SolidAnswer = SolidFiles | NotSolid | { readonly kind: 'failed'; readonly words: string };

self.onmessage = async ({ data }: MessageEvent<HeldWish>): Promise<void> => {
  const answer = await answerTo(data);
  self.postMessage(answer, { transfer: answer.kind === 'made' ? [answer.stl.buffer, answer.glb.buffer] : [] });
};

async function answerTo(wish: HeldWish): Promise<SolidAnswer> {
  try {
    const made = heldThing(wish);
    if (made.kind === 'refused') return made;
    const { solids, figures } = made;
    return { kind: 'made', stl: stlFile(solids, figures.backMm), glb: await glbFile(solids), figures };
  } catch (error) {
    return { kind: 'failed', words: error instanceof Error ? error.message : String(error) };
  }
}
