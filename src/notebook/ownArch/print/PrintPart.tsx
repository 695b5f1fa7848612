/** The own arch from a bite print: a picture opened, its scale and the tooth edges marked, forms fitted, one taken. Marks stay whatever happens. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { NINETY_FIVE_PERCENT } from '../../../core/bands';
import { fitArch } from '../../../core/ownArch/fitArch';
import { type NoPrintFit, onCard } from '../../../core/ownArch/fitPrint';
import type { BitePrintSpec, PrintScaleSpec } from '../../../core/specs';
import { snapToEdge } from '../../../measure/edgeSnap';
import { inverseMap, mapped } from '../../../measure/homography';
import type { Point } from '../../../measure/picture';
import { sayOwnArch } from '../../../words/ownArch';
import { Choice } from '../../Choice';
import { NumberField } from '../../NumberField';
import { formatFixed } from '../../numberText';
import { measuredOf } from '../measureEdits';
import type { PrintForms as Forms, OwnArchProps, PrintPictureFile } from '../props';
import { PrintDoor } from './PrintDoor';
import { type FormChoice, PrintDrawing, PrintForms, curveOf, isFreeOffered } from './PrintForms';
import { PrintPicture } from './PrintPicture';
import { TeethList } from './TeethList';
import {
  type MarkGroup, NEW_DRAFT, type PrintDraft, type PrintMarkId, closed, exchanged, groupAfter, groupNow, inRow, markAt, partsOf, placesOf, printOf, readDraft,
  startSteps, stepBack, stepForward, stepTo, withMoved, withNew, withPrint, withTooth, withoutMark, withoutPrint,
} from './printMarks';
import { fitTrouble, hintOf, markWords, readTrouble } from './printWords';
import '../../measure/measure.css';

/** Forms are fitted when the marks have been at rest so long, ms. */
const REST_MS = 250;
/** How far a point put by hand is drawn to an edge, px: a print's other side is not far. */
const SNAP_PX = 5;

export function PrintPart(props: OwnArchProps): ReactNode {
  const { record, doors, onChange } = props;
  const [picture, setPicture] = useState<PrintPictureFile | null>(null);
  const [steps, setSteps] = useState(() => startSteps(NEW_DRAFT));
  const [wanted, setWanted] = useState<MarkGroup>('card');
  const [snaps, setSnaps] = useState(true);
  const [wish, setWish] = useState<FormChoice | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  usePictureEnd(picture);
  const draft = steps.now;
  const group = groupNow(draft, wanted);
  const read = useMemo(() => readDraft(draft), [draft]);
  const print = useMemo(() => (read.kind === 'converted' && picture !== null ? printOf(draft, read) : null), [read, draft, picture]);
  const { fits, behind } = useFits(print, doors.fit);
  const found = fits !== null && typeof fits !== 'string' && fits.kind === 'forms' ? fits : null;
  const chosen = found === null || print === null ? null : choiceIn(print, found, wish);
  const edit = (next: PrintDraft, key: string | null): void => {
    setSteps((before) => stepTo(before, next, key));
    setSaid(null);
  };
  const snapped = (point: Point, by: MarkGroup, byHand: boolean): Point => {
    if (picture === null || !snaps || !byHand || by === 'card' || by === 'ruler') return point;
    const to = snapToEdge(picture.grey, point, { radiusPx: SNAP_PX });
    return to.kind === 'snapped' ? to.point : point;
  };
  const put = (point: Point, byHand: boolean): void => {
    if (group === null) return;
    const next = withNew(draft, group, snapped(point, group, byHand));
    edit(next, null);
    const after = groupAfter(next, group);
    setWanted(after);
    const count = placesOf(next, after).length;
    const words = groupNow(next, after) === null ? sayOwnArch('printFull') : sayOwnArch('printNext', { mark: markWords(`${after}-${count}`), hint: hintOf(after) });
    doors.announce(`${sayOwnArch('printPut', { mark: markWords(`${group}-${placesOf(next, group).length - 1}`) })} ${words}`);
  };
  const settle = (id: PrintMarkId, byHand: boolean): void => {
    const at = markAt(draft, id);
    setSteps((before) => {
      if (at === null) return closed(before);
      const to = snapped(at, partsOf(id).group, byHand);
      const next = inRow(to === at ? before.now : withMoved(before.now, id, to), id);
      // In the same step as the move: undoing takes both back.
      return closed(next === before.now ? before : stepTo(before, next, before.key));
    });
  };
  const accept = (): void => {
    if (print === null || chosen === null || found === null) return;
    const made = chosen === 'free' ? withPrint(record, { ...print, isFree: true }, found.fits[0]!.family) : withPrint(record, print, chosen);
    if (made.kind === 'record') onChange((now) => ({ ...now, arch: made.record.arch }), null);
    const words = made.kind === 'record' ? sayOwnArch('printAccepted', { jaw: print.jaw }) : sayOwnArch('printNotAccepted');
    setSaid(words);
    doors.announce(words);
  };
  const trouble = picture === null ? null : (readTrouble(read) ?? troubleOf(fits, draft.teeth.length));
  const next = group === null ? sayOwnArch('printFull') : sayOwnArch('printNext', { mark: markWords(`${group}-${placesOf(draft, group).length}`), hint: hintOf(group) });
  return (
    <div className="print">
      <p className="note">{sayOwnArch('printIntro')}</p>
      <p className="caution">
        <strong>{sayOwnArch('cautionHead')}</strong> {sayOwnArch('printCaution')}
      </p>
      <p className="note">{sayOwnArch('printPrivacy')}</p>
      <Kept {...props} />
      <PrintDoor
        isOpen={picture !== null}
        open={doors.open}
        onOpened={(opened) => {
          setPicture(opened);
          // Another picture's marks lie elsewhere; what was typed and chosen stays, and undo brings the marks back.
          if (picture !== null) edit({ ...draft, card: [], circle: [], ruler: [], teeth: [] }, null);
          setWanted(draft.by);
        }}
      />
      {picture === null ? null : (
        <>
          <Choice<PrintDraft['jaw']>
            legend={sayOwnArch('printJaw')}
            options={[{ value: 'upper', label: sayOwnArch('printUpper') }, { value: 'lower', label: sayOwnArch('printLower') }]}
            value={draft.jaw}
            onChange={(jaw) => edit({ ...draft, jaw }, null)}
          />
          <Choice<PrintScaleSpec['by']>
            legend={sayOwnArch('printBy')}
            options={[
              { value: 'card', label: sayOwnArch('printByCard') },
              { value: 'circle', label: sayOwnArch('printByCircle') },
              { value: 'ruler', label: sayOwnArch('printByRuler') },
            ]}
            value={draft.by}
            onChange={(by) => {
              edit({ ...draft, by }, null);
              setWanted(groupAfter({ ...draft, by }, by));
            }}
          />
          <p className="note">{sayOwnArch('printByHint', { by: draft.by })}</p>
          <Lengths draft={draft} edit={edit} onSettle={() => setSteps(closed)} />
          <Choice<MarkGroup>
            legend={sayOwnArch('printPutNow')}
            options={[{ value: draft.by, label: sayOwnArch('printReference', { by: draft.by }) }, { value: 'tooth', label: sayOwnArch('printTeeth') }]}
            value={wanted}
            onChange={setWanted}
          />
          <p className="measure__next">{next}</p>
          <PrintPicture
            picture={picture}
            draft={draft}
            group={group}
            canUndo={steps.past.length > 0}
            canRedo={steps.future.length > 0}
            snaps={snaps}
            curve={chosen === null || found === null || behind || read.kind !== 'converted' ? [] : onPicture(found, chosen, read.map)}
            onPut={put}
            onMove={(id, point, key) => edit(withMoved(draft, id, point), key)}
            onSettle={settle}
            onTake={(id) => {
              edit(withoutMark(draft, id), null);
              doors.announce(sayOwnArch('printTaken', { mark: markWords(id) }));
            }}
            onUndo={() => setSteps(stepBack)}
            onRedo={() => setSteps(stepForward)}
            onSnaps={setSnaps}
          />
          <TeethList
            teeth={draft.teeth}
            onName={(at, tooth) => edit(withTooth(draft, at, tooth), null)}
            onTake={(at) => edit(withoutMark(draft, `tooth-${at}`), null)}
            onExchange={() => edit(exchanged(draft), null)}
          />
          {read.kind !== 'converted' || draft.teeth.length === 0 ? null : (
            <p className="note">{sayOwnArch('printScaleTold', { mm: formatFixed(read.mmPerPx, 3), percent: formatFixed(100 * NINETY_FIVE_PERCENT * read.scalePart, 2) })}</p>
          )}
          <div role="status">{read.kind === 'converted' && read.isTurned ? <p className="caution">{sayOwnArch('printTurned')}</p> : null}</div>
          <div role="status">{trouble === null ? fits === null && print !== null ? <p className="note">{sayOwnArch('printWaiting')}</p> : null : <p className="caution">{trouble}</p>}</div>
          {print === null || chosen === null || found === null ? null : (
            <PrintForms print={print} forms={found} chosen={chosen} behind={behind} onChoose={setWish} onAccept={accept} />
          )}
          {said === null ? null : <p className="note">{said}</p>}
        </>
      )}
    </div>
  );
}

/** What was chosen, where it is still offered; else the better one. */
function choiceIn(print: BitePrintSpec, forms: Forms, wish: FormChoice | null): FormChoice {
  const { fits, free } = forms;
  const offered = isFreeOffered(print, forms);
  if (wish === 'free' ? offered : fits.some(({ family }) => family === wish)) return wish!;
  return offered && free!.aicc < fits[0]!.aicc ? 'free' : fits[0]!.family;
}

function troubleOf(fits: Fits['fits'], count: number): string | null {
  if (typeof fits === 'string') return sayOwnArch('failed', { why: fits });
  return fits?.kind === 'not-fitted' ? fitTrouble(fits, count) : null;
}

/** The fitted form in px of the picture. */
function onPicture({ fits, free }: Forms, chosen: FormChoice, map: Parameters<typeof inverseMap>[0]): Point[] {
  const back = inverseMap(map);
  const fit = fits.find(({ family }) => family === chosen) ?? fits[0]!;
  const follows = chosen === 'free' ? free : null;
  const front = follows?.frontAt ?? { xMm: 0, zMm: 0 };
  return curveOf(follows ?? fit).map(({ xMm, zMm }) => {
    const at = onCard(fit.pose, xMm + front.xMm, zMm + front.zMm);
    return mapped(back, { x: at.xMm, y: at.yMm });
  });
}

interface LengthsProps {
  readonly draft: PrintDraft;
  edit(next: PrintDraft, key: string): void;
  onSettle(): void;
}

const LENGTH_RANGE = { min: 0, max: 1000, unit: 'mm', aboveMin: true } as const;

function Lengths({ draft, edit, onSettle }: LengthsProps): ReactNode {
  const field = (name: 'widthMm' | 'heightMm' | 'diameterMm' | 'lengthMm', label: string, hint?: string): ReactNode => (
    <NumberField
      label={label}
      value={draft[name]}
      range={LENGTH_RANGE}
      step={0.1}
      places={2}
      optional
      hint={hint}
      onChange={(mm, key) => edit({ ...draft, [name]: mm }, key)}
      onSettle={onSettle}
    />
  );
  return (
    <div className="fields">
      {draft.by === 'card' ? field('widthMm', sayOwnArch('printWidth'), sayOwnArch('printWidthHint')) : null}
      {draft.by === 'card' ? field('heightMm', sayOwnArch('printHeight')) : null}
      {draft.by === 'circle' ? field('diameterMm', sayOwnArch('printDiameter'), sayOwnArch('printDiameterHint')) : null}
      {draft.by === 'ruler' ? field('lengthMm', sayOwnArch('printLength'), sayOwnArch('printLengthHint')) : null}
    </div>
  );
}

/** Prints that the arch follows already. */
function Kept({ record, onChange }: OwnArchProps): ReactNode {
  const measured = measuredOf(record);
  const { prints = [] } = measured;
  const fit = prints.length === 0 ? null : fitArch(measured);
  return prints.map(({ jaw, points, scale }, at) => {
    const free = fit?.kind === 'fitted' ? fit.free[jaw] : undefined;
    const own = free ?? (fit?.kind === 'fitted' ? fit.prints[at]! : null);
    return (
      <div key={jaw} className="print-kept">
        <p>{sayOwnArch('printKept', { jaw, count: points.length, by: scale.by, rms: own === null ? '–' : formatFixed(own.rmsMm, 2) })}</p>
        {own === null ? null : <PrintDrawing drawn={own} name={sayOwnArch('family' in own ? own.family : 'free')} />}
        <button
          type="button"
          className="quiet"
          onClick={() => {
            const made = withoutPrint(record, jaw);
            if (made.kind === 'record') onChange((now) => ({ ...now, arch: made.record.arch }), null);
          }}
        >
          {sayOwnArch('printOut', { jaw })}
        </button>
      </div>
    );
  });
}

interface Fits {
  readonly fits: Forms | NoPrintFit | string | null;
  readonly behind: boolean;
}

/** Of the marks at rest; the last that are known stay until newer ones are. */
function useFits(print: BitePrintSpec | null, fit: OwnArchProps['doors']['fit']): Fits {
  const [known, setKnown] = useState<{ readonly of: BitePrintSpec; readonly fits: NonNullable<Fits['fits']> } | null>(null);
  useEffect(() => {
    if (print === null) return;
    let isOver = false;
    const rest = setTimeout(() => void fit(print).then((fits) => !isOver && fits !== null && setKnown({ of: print, fits })), REST_MS);
    return () => {
      isOver = true;
      clearTimeout(rest);
    };
  }, [print, fit]);
  if (print === null || known === null) return { fits: null, behind: true };
  return { fits: known.fits, behind: known.of !== print };
}

/** A picture's bitmaps are let go with it. */
function usePictureEnd(picture: PrintPictureFile | null): void {
  const now = useRef(picture);
  useEffect(() => {
    const before = now.current;
    if (before !== null && before !== picture) letGo(before);
    now.current = picture;
  }, [picture]);
  useEffect(() => () => {
    if (now.current !== null) letGo(now.current);
  }, []);
}

function letGo({ shown, small }: PrintPictureFile): void {
  shown.close();
  small?.close();
}
