import type { ReactNode } from 'react';
import type { Problem } from '../core/analysis';
import type { PlayerRecord } from '../core/specs';
import { seatWords } from '../core/words';
import { sayNotebook } from '../words/notebook';
import { noteAsShown } from './noteNames';
import type { EntryStyle } from './props';

export interface ProblemsProps {
  readonly words: readonly string[];
}

/** What could not be computed, in words. The picture stays the last good one. */
export function Problems({ words }: ProblemsProps): ReactNode {
  return (
    <div role="status" className="problems">
      {words.map((one) => (
        <p key={one}>
          <strong>{sayNotebook('notShown')}</strong> {one} {sayNotebook('pictureStays')}
        </p>
      ))}
    </div>
  );
}

/** "At B♭5 the rim reaches past the end of the arch." */
export function problemWords(record: PlayerRecord, problem: Problem, entry: Pick<EntryStyle, 'shownTransposition' | 'naming'>): string {
  const reading = problem.readingIndex === null ? undefined : record.readings[problem.readingIndex];
  if (problem.reason === 'bad-reading' || reading === undefined) return problem.words;
  return sayNotebook('atNoteWhy', { note: noteAsShown(reading.note, entry), why: seatWords(problem.reason) });
}
