/**
 * The only file that knows the notation library. It is imported dynamically, so that the notebook works before it is
 * there. The music font comes with the app: the library's own font loading from the network is never used.
 */
import musicFontUrl from '@vexflow-fonts/gonville/gonville.woff2?url';
import { Accidental, Font, ModifierContext, SVGContext, Stave, StaveNote, TickContext, VexFlow } from 'vexflow/core';
import { STAFF_SPACE_PX } from './layout';
import type { Engraver, Score } from './props';

/** Resolves when the music font is ready to be measured and drawn; rejects when the browser cannot load it. */
export async function openEngraver(): Promise<Engraver> {
  await Font.load(MUSIC_FONT, musicFontUrl, { display: 'block' });
  VexFlow.setFonts(MUSIC_FONT);
  return { engrave };
}

const MUSIC_FONT = 'Gonville';
/** The library keeps this many spaces above the first line; the layout gives the line itself. */
const SPACES_ABOVE = 0;

function engrave(host: HTMLElement, score: Score): void {
  host.replaceChildren();
  const context = new SVGContext(host);
  context.resize(score.widthPx, score.heightPx);
  context.setFillStyle('currentColor').setStrokeStyle('currentColor');
  const stave = new Stave(score.staveLeftPx, score.staveTopPx, score.widthPx - score.staveLeftPx - 1, {
    leftBar: false,
    rightBar: false,
    spaceAboveStaffLn: SPACES_ABOVE,
    spacingBetweenLinesPx: STAFF_SPACE_PX,
  });
  stave.setStyle({ strokeStyle: 'var(--staff-line, currentColor)', lineWidth: 1 });
  stave.setDefaultLedgerLineStyle({ strokeStyle: 'currentColor', lineWidth: 1.4 });
  stave.addClef(score.clef);
  stave.setContext(context).drawWithStyle();
  score.notes.forEach((scored, index) => {
    const note = new StaveNote({ keys: [`${scored.letter.toLowerCase()}/${scored.octave}`], duration: '4', clef: score.clef });
    // A reading has a pitch and no duration: a notehead alone says that.
    note.getStem()?.setVisibility(false);
    if (scored.accidental) note.addModifier(new Accidental(scored.accidental), 0);
    note.setStave(stave);
    note.addToModifierContext(new ModifierContext());
    const tick = new TickContext();
    tick.addTickable(note).preFormat();
    tick.setX(0);
    const middle = (note.getNoteHeadBeginX() + note.getNoteHeadEndX()) / 2;
    tick.setX(scored.xPx - middle);
    const group = context.openGroup('reading');
    group.dataset['index'] = String(index);
    note.setContext(context).drawWithStyle();
    context.closeGroup();
  });
}
