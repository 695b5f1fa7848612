/** The notation: loaded on first use, drawn again when something on the staff changed. */
import { useEffect, useRef, useState, type RefObject } from 'react';
import type { StaffLayout } from './layout';
import type { ClefName, Engraver } from './props';
import { accidentals, type WrittenNote } from './spelling';

/** The engraver of this app, by a dynamic import. */
export async function loadEngraver(): Promise<Engraver> {
  const { openEngraver } = await import('./engrave');
  return openEngraver();
}

export type EngraverState = Engraver | 'loading' | 'failed';

export function useEngraver(load: () => Promise<Engraver>): readonly [EngraverState, (state: EngraverState) => void] {
  const [engraver, setEngraver] = useState<EngraverState>('loading');
  useEffect(() => {
    let wanted = true;
    load().then(
      (loaded) => wanted && setEngraver(loaded),
      () => wanted && setEngraver('failed'),
    );
    return () => {
      wanted = false;
    };
  }, [load]);
  return [engraver, setEngraver];
}

/** Draws again only when something on the staff changed; the selection is styled, not drawn. */
export function useNotation(
  engraver: EngraverState,
  setEngraver: (state: EngraverState) => void,
  layout: StaffLayout,
  written: readonly WrittenNote[] | null,
  clef: ClefName,
): RefObject<HTMLDivElement | null> {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!host.current) return;
    if (typeof engraver === 'string' || written === null) {
      host.current.replaceChildren();
      return;
    }
    const signs = accidentals(written);
    try {
      engraver.engrave(host.current, {
        clef,
        widthPx: layout.widthPx,
        heightPx: layout.namesTopPx,
        staveLeftPx: 1,
        staveTopPx: layout.staveTopPx,
        notes: written.map((note, index) => ({
          xPx: layout.noteXs[index] as number,
          letter: note.letter,
          octave: note.octave,
          accidental: signs[index] ?? null,
        })),
      });
    } catch {
      setEngraver('failed');
    }
  }, [engraver, setEngraver, layout, written, clef]);
  return host;
}
