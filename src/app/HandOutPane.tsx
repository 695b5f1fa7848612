import latinUrl from '@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2?url';
import { type ReactNode, useCallback, useMemo, useSyncExternalStore } from 'react';
import { lessonOf, withLesson } from '../core/lessons';
import { noteAsShown } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { HandOutPreview } from '../print/HandOutPreview';
import type { Posture } from '../print/instrumentWords';
import { CONTENT_WIDTH_MM } from '../print/paper';
import { tryOutsText } from '../print/sheetText';
import { PrintedStaff } from '../staff/PrintedStaff';
import { printedSystems } from '../staff/printLayout';
import { staffFonts } from '../staff/printFonts';
import { useApp, useBands, useSession, useUnhurried } from './SessionContext';
import { postureOf } from './describe';
import { localDay } from './localDay';
import { readingsInOrder, staffInstrument, staffNotes } from './staffNotes';
import { sayPage } from '../words/page';
import { sayStaff } from '../words/staff';

export interface HandOutPaneProps {
  readonly entry: EntryStyle;
}

/** The chapter with the page for the student to take home. */
export function HandOutPane({ entry }: HandOutPaneProps): ReactNode {
  const analysis = useUnhurried((state) => state.analysis);
  return (
    <section className="chapter" id="hand-out" aria-labelledby="hand-out-heading">
      <h2 id="hand-out-heading">{sayPage('headingHandOut')}</h2>
      {analysis === null ? <p className="note">{sayPage('nothingToPrint')}</p> : <Preview entry={entry} />}
    </section>
  );
}

function Preview({ entry }: HandOutPaneProps): ReactNode {
  const { said: source } = useSession();
  const said = useSyncExternalStore(source.subscribe, source.current);
  // Not null here; asked for again so that nothing but the analysis passes between.
  const analysis = useUnhurried((state) => state.analysis)!;
  const bands = useBands(analysis);
  const lesson = useUnhurried((state) => state.lesson);
  const clef = useApp((state) => state.settings.clef);
  const { label, instrument: instrumentId } = analysis.record.player;
  const posture = postureOf(instrumentId);
  const { changePlayer } = useSession().store.getState();
  const noteLabel = useCallback((note: string) => noteAsShown(note, entry), [entry]);
  const instrument = useMemo(() => staffInstrument(instrumentId, clef), [instrumentId, clef]);
  const inOrder = useMemo(() => readingsInOrder(analysis), [analysis]);
  const staff = useMemo(
    () => (
      <PrintedStaff
        notes={staffNotes(inOrder, instrument, entry)}
        instrument={instrument}
        swing={inOrder.map(({ reading }) => reading.changeFromHome)}
        rowNames={rowNames(posture)}
        widthMm={CONTENT_WIDTH_MM}
      />
    ),
    [inOrder, entry, instrument, posture],
  );
  return (
    <HandOutPreview
      analysis={analysis}
      findings={said?.record === analysis.record ? said.findings : null}
      bands={bands}
      label={label}
      instrumentName={instrument.name}
      posture={posture}
      date={lesson.date ?? localDay()}
      whatToTry={lesson.toTry ?? tryOutsText(lesson.tryOuts, posture)}
      noteLabel={noteLabel}
      staff={staff}
      staffSystems={printedSystems(inOrder.length)}
      fonts={FONTS}
      onWhatToTry={(toTry) => changePlayer((player) => withLesson(player, { ...lessonOf(player, lesson.id), toTry }), 'to-try')}
    />
  );
}

function rowNames(posture: Posture): readonly [string, string] {
  const [up, side] = posture === 'lap' ? [sayPage('headingForward'), sayPage('headingLeft')] : [sayStaff('headingUp'), sayStaff('headingRight')];
  return [`${up} °`, `${side} °`];
}

/** As in fonts.css; accents beyond Latin 1 fall back on the reader's own fonts. */
const FONTS = [...staffFonts, { family: 'Source Sans 3', url: latinUrl, weight: '200 900' }];
