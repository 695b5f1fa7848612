import { type ReactNode, useCallback, useEffect, useState } from 'react';
import type { Analysis } from '../core/analysis';
import { lessonOf, withTryOut, withoutTryOut } from '../core/lessons';
import type { LessonSpec, TryOutChange, TryOutSpec } from '../core/specs';
import { compareTryOut } from '../core/tryOutComparison';
import type { TryOutComparison } from '../core/tryOutShapes';
import { noteAsShown } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { TryOutReadings } from '../notebook/tryOuts/TryOutReadings';
import { TryOutsChapter } from '../notebook/tryOuts/TryOutsChapter';
import { newId } from '../records/newId';
import { unseenNotes } from '../records/newRecords';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { postureOf } from './describe';
import { afterRest } from './idle';

/** The chapter on try-outs of the lesson on the page. */
export function TryOutsPane({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const { store } = useSession();
  const analysis = useUnhurried((state) => state.analysis);
  const record = useUnhurried((state) => state.record);
  const lessonId = useApp((state) => state.lesson.id);
  const tryOuts = useApp((state) => state.lesson.tryOuts);
  const compared = useCompared(analysis, tryOuts);
  const noteLabel = useCallback((note: string) => noteAsShown(note, entry), [entry]);
  const { changePlayer, settle } = store.getState();
  return (
    <TryOutsChapter
      tryOuts={tryOuts}
      compared={compared}
      posture={postureOf(record.player.instrument)}
      noteLabel={noteLabel}
      readingsOf={(tryOut) => (
        <TryOutReadings
          record={record}
          tryOut={tryOut}
          entry={entry}
          onChange={(edit, key) =>
            changePlayer((player) => {
              const now = lessonOf(player, lessonId).tryOuts.find(({ id }) => id === tryOut.id);
              const next = now && edit(now);
              return next === undefined || next === now ? player : withTryOut(player, lessonId, next);
            }, key)}
          onSettle={settle}
        />
      )}
      onAdd={(change) => changePlayer((player) => withTryOut(player, lessonId, begun(change, lessonOf(player, lessonId))))}
      onChange={(tryOut, key) => changePlayer((player) => withTryOut(player, lessonId, tryOut), key)}
      onDelete={(id) => changePlayer((player) => withoutTryOut(player, lessonId, id))}
      onSettle={settle}
    />
  );
}

const begun = (change: TryOutChange, { readings }: LessonSpec): TryOutSpec => ({ id: newId(), change, readings: unseenNotes(readings) });

const NOTHING: ReadonlyMap<string, TryOutComparison> = new Map();

/** Compared when the record has been at rest for a moment, one try-out after the other; until then what was compared last stands. */
function useCompared(analysis: Analysis | null, tryOuts: readonly TryOutSpec[]): ReadonlyMap<string, TryOutComparison> {
  const [compared, setCompared] = useState(NOTHING);
  useEffect(() => {
    let callOff = (): void => undefined;
    const compareFrom = (index: number): void => {
      const tryOut = tryOuts[index];
      if (analysis === null || tryOut === undefined) return;
      callOff = (index === 0 ? afterRest : soon)(() => {
        const comparison = comparisonOf(analysis, tryOut);
        setCompared((known) => new Map([...known, [tryOut.id, comparison]]));
        compareFrom(index + 1);
      });
    };
    compareFrom(0);
    return () => callOff();
  }, [analysis, tryOuts]);
  return compared;
}

function soon(run: () => void): () => void {
  const timer = setTimeout(run, 0);
  return () => clearTimeout(timer);
}

/** What cannot be compared is said in its place; the other try-outs stand. */
function comparisonOf(analysis: Analysis, tryOut: TryOutSpec): TryOutComparison {
  try {
    return compareTryOut(analysis, tryOut);
  } catch (fault) {
    if (fault instanceof RangeError) return { kind: 'refused', words: `${fault.message}.` };
    throw fault;
  }
}
