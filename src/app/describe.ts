/** The selected note in words, as the page shows them: the sentence, and what the picture's labels say. */
import type { Analysis, KnownHorn } from '../core/analysis';
import type { ReadingBand } from '../core/bands';
import type { NoteNaming } from '../core/noteNaming';
import { isAngleSeen } from '../core/readings';
import { seatWords } from '../core/words';
import { type Posture, swingBeside } from '../print/instrumentWords';
import { type AngleMargin, marginOf } from '../print/margin';
import { shownNote } from '../notebook/noteNames';
import { sentence } from '../notebook/sentence';
import { ownStageWords } from '../stage/words';
import type { StageWords } from '../stage/props';
import { type Notation, instrumentById } from '../records/library';
import { notebookLibrary } from './library';
import { readingAt } from './session';
import type { Settings } from './settings';
import type { AppState } from './store';
import { sayPage } from '../words/page';

export function postureOf(instrumentId: string): Posture {
  return notebookLibrary.instruments.find((one) => one.id === instrumentId)?.posture ?? 'held';
}

/** Written minus sounding, semitones, while written names are wished for. */
export function shownTransposition({ record, settings }: Pick<AppState, 'record' | 'settings'>): number {
  if (settings.noteNames !== 'written') return 0;
  return notationOf(record.player.instrument, settings.clef)?.transpositionSemitones ?? 0;
}

/** How the instrument is written: in the clef wished for where it has that, else in its usual one. */
export function notationOf(instrumentId: string, clef: Settings['clef']): Notation | undefined {
  const notations = instrumentById(instrumentId)?.notations ?? [];
  return notations.find((one) => one.clef === clef) ?? notations[0];
}

/** The one sentence about the selected note; null while there is nothing to say. */
export function describeSelected(
  state: Pick<AppState, 'record' | 'analysis' | 'selected' | 'settings'>,
  bands: readonly ReadingBand[] | null = null,
): string | null {
  const { record, analysis, selected } = state;
  const reading = record.readings[selected];
  const result = readingAt(state, selected);
  if (reading === undefined || analysis === null) return null;
  const note = shownNote(reading.note, shownTransposition(state), state.settings.naming);
  if (result === undefined) {
    const problem = analysis.problems.find(({ readingIndex }) => readingIndex === selected);
    const words = problem === undefined ? null : problem.reason === 'bad-reading' ? problem.words : seatWords(problem.reason);
    return words === null ? null : sayPage('nothingSaidOf', { note, why: words });
  }
  const takes = result.sources.filter((index) => record.readings[index]?.travel !== undefined).length;
  return sentence({
    note: takes > 1 ? sayPage('meanOfTakes', { note, takes }) : note,
    travel: result.travel,
    changeFromHome: result.changeFromHome,
    homeMeasured: wasSeen(analysis.home.measured),
    heldShare: result.held.load.share,
    posture: postureOf(record.player.instrument),
    margin: marginAt(bands?.[analysis.readings.indexOf(result)]),
  });
}

/** Both angles: the sentence speaks of both. */
const wasSeen = (horn: KnownHorn | null): boolean => horn !== null && isAngleSeen(horn.sdDeg) && isAngleSeen(horn.lateralSdDeg);

const marginAt = (band: ReadingBand | undefined): AngleMargin | undefined => (band === undefined ? undefined : marginOf(band.change));

/** The picture's labels: angles as changes from home, since the model's own angle depends on the jaw more than the change does. */
export function stageWords(analysis: Analysis, transpositionSemitones: number, naming: NoteNaming): StageWords {
  const home = analysis.home.follow.pose;
  const posture = postureOf(analysis.record.player.instrument);
  return {
    ...ownStageWords(),
    note: (sounding) => shownNote(sounding, transpositionSemitones, naming),
    hornAngle: ({ elevationDeg, lateralDeg }) =>
      `${swingBeside(posture, 'elevation', elevationDeg - home.elevationDeg)} · ${swingBeside(posture, 'lateral', lateralDeg - home.lateralDeg)}`,
  };
}
