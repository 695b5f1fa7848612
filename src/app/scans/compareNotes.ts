/** What scan and arch make of each note's angle, worked out between the page's other work. */
import type { MouthOf } from '../../core/arch';
import { poolReadings } from '../../core/readings';
import type { PlayerRecord } from '../../core/specs';
import { type ComparedSeats, seatComparison } from '../../scans/compareSeats';
import { nextTask } from './analyseAhead';

export interface NoteCompared {
  readonly note: string;
  readonly seats: ComparedSeats;
}

/** One a note, in the analysis's order; none where they cannot be worked out. */
export async function compareNotes(record: PlayerRecord, mouthOf: MouthOf, signal: AbortSignal, breathe: () => Promise<void> = nextTask): Promise<readonly NoteCompared[]> {
  const readings = poolReadings(record).filter(({ travel }) => travel.upMm !== 0 || travel.rightMm !== 0);
  const steps = seatComparison(record, mouthOf, readings.map(({ travel, jaw }) => ({ upMm: travel.upMm, rightMm: travel.rightMm, jaw })));
  try {
    for (;;) {
      await breathe();
      if (signal.aborted) return [];
      const step = steps.next();
      if (step.done) return step.value.map((seats, index) => ({ note: readings[index]!.note, seats }));
    }
  } catch (trouble) {
    // Numbers that make no arch were refused before: what is left is a rim that cannot be built, of which the page speaks elsewhere.
    if (trouble instanceof RangeError) return [];
    throw trouble;
  }
}
