/** The picture of a print with its marks: put by a tap or by keys, moved by a drag or the arrow keys, seen as large as one likes. */
import { type ReactNode, useRef, useState } from 'react';
import type { Point } from '../../../measure/picture';
import { sayOwnArch } from '../../../words/ownArch';
import { Loupe } from '../../measure/Loupe';
import { MarkButton } from '../../measure/MarkButton';
import { PictureCanvas, undoKeys } from '../../measure/MeasuringPicture';
import { PutCross } from '../../measure/PutCross';
import { nudged } from '../../measure/marksEdits';
import { placeIn, usePicturePointers } from '../../measure/usePicturePointers';
import { useViewport } from '../../measure/useViewport';
import { type Viewport, isInside, toFrame, toPicture } from '../../measure/viewport';
import type { PrintPictureFile } from '../props';
import { type MarkGroup, type PrintDraft, type PrintMarkId, markAt, marksPut, partsOf, placesOf } from './printMarks';
import { hintOf, markWords } from './printWords';

export interface PrintPictureProps {
  readonly picture: PrintPictureFile;
  readonly draft: PrintDraft;
  /** What a tap puts; null: there is room for no more. */
  readonly group: MarkGroup | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly snaps: boolean;
  /** The chosen form, px of the picture; empty while there is none. */
  readonly curve: readonly Point[];
  /** `byHand`: a pointer put it, so that it may be drawn to an edge. */
  onPut(point: Point, byHand: boolean): void;
  onMove(id: PrintMarkId, point: Point, key: string): void;
  onSettle(id: PrintMarkId, byHand: boolean): void;
  onTake(id: PrintMarkId): void;
  onUndo(): void;
  onRedo(): void;
  onSnaps(on: boolean): void;
}

const ZOOM_STEP = 1.5;
const NO_STEP: Point = { x: 0, y: 0 };

export function PrintPicture(props: PrintPictureProps): ReactNode {
  const { picture, draft, group, curve, onPut, onMove, onSettle } = props;
  const size = { width: picture.width, height: picture.height };
  const seen = useViewport(size);
  const { view } = seen;
  const [fine, setFine] = useState(false);
  const [held, setHeld] = useState<PrintMarkId | null>(null);
  const surface = useRef<HTMLDivElement>(null);
  const dragFrom = useRef<{ readonly press: number; readonly point: Point } | null>(null);
  const putAt = (place: Point): void => {
    const point = view && toPicture(view, place);
    if (group !== null && point !== null && isInside(point, size)) onPut(nudged(point, NO_STEP, size), true);
  };
  const pointers = usePicturePointers(surface, { onTap: putAt, onPan: seen.pan, onZoom: seen.zoom });
  const drag = (id: PrintMarkId, by: Point, press: number): void => {
    const at = markAt(draft, id);
    if (view === null || at === null) return;
    if (dragFrom.current?.press !== press) dragFrom.current = { press, point: at };
    setHeld(id);
    onMove(id, nudged(dragFrom.current.point, { x: by.x / view.scale, y: by.y / view.scale }, size), `drag:${id}:${press}`);
  };
  const left = (id: PrintMarkId, byHand: boolean): void => {
    dragFrom.current = null;
    setHeld(null);
    onSettle(id, byHand);
  };
  const lookedAt = held === null ? null : markAt(draft, held);
  const next: PrintMarkId | null = group === null ? null : `${group}-${placesOf(draft, group).length}`;
  return (
    <div className="measuring print-picture" onKeyDown={undoKeys(props)}>
      <div ref={seen.frame} className="print-frame measuring__frame" style={{ aspectRatio: `${size.width} / ${size.height}` }} role="group" aria-label={sayOwnArch('printPicture', { file: picture.name })}>
        {view === null ? null : (
          <>
            <PictureCanvas image={picture.shown} small={picture.small} size={size} scale={view.scale} leftPx={view.leftPx} topPx={view.topPx} frame={seen.frameSize} />
            <PrintLines draft={draft} curve={curve} view={view} frame={seen.frameSize} />
          </>
        )}
        <div ref={surface} className="measuring__surface" data-puts={group !== null} {...pointers}>
          {view === null || next === null ? null : (
            <PutCross
              label={sayOwnArch('printPutHere', { mark: markWords(next), hint: hintOf(group!) })}
              view={view}
              frame={seen.frameSize}
              picture={size}
              fine={fine}
              onMoved={seen.reveal}
              onPut={(point) => onPut(point, false)}
            />
          )}
          {view === null
            ? null
            : marksPut(draft).map((id) => {
                const at = markAt(draft, id)!;
                return (
                  <MarkButton
                    key={id}
                    name={markWords(id)}
                    said={sayOwnArch('printPlace', { x: at.x.toFixed(1), y: at.y.toFixed(1) })}
                    at={toFrame(view, at)}
                    fine={fine}
                    onTap={(client) => {
                      if (surface.current !== null) putAt(placeIn(surface.current, client));
                    }}
                    onDrag={(by, press) => drag(id, by, press)}
                    onDrop={() => left(id, true)}
                    onNudge={(step) => {
                      const to = nudged(at, step, size);
                      setHeld(id);
                      seen.reveal(to);
                      onMove(id, to, `nudge:${id}`);
                    }}
                    onFocused={() => seen.reveal(at)}
                    onLeft={() => left(id, false)}
                    onTake={() => {
                      setHeld(null);
                      props.onTake(id);
                    }}
                  />
                );
              })}
        </div>
        {view === null || lookedAt === null ? null : <Loupe image={picture.shown} picture={size} view={view} frame={seen.frameSize} at={lookedAt} />}
      </div>
      <div className="looking measuring__bar">
        <span className="button-row" role="group" aria-label={sayOwnArch('printSize')}>
          <button type="button" className="quiet" onClick={() => seen.zoom(1 / ZOOM_STEP)} disabled={seen.isWhole}>
            {sayOwnArch('printSmaller')}
          </button>
          <button type="button" className="quiet" onClick={() => seen.zoom(ZOOM_STEP)}>
            {sayOwnArch('printLarger')}
          </button>
          <button type="button" className="quiet" onClick={seen.whole} disabled={seen.isWhole}>
            {sayOwnArch('printWhole')}
          </button>
        </span>
        <span className="button-row" role="group" aria-label={sayOwnArch('printSteps')}>
          <button type="button" className="quiet" disabled={!props.canUndo} onClick={props.onUndo}>
            {sayOwnArch('printUndo')}
          </button>
          <button type="button" className="quiet" disabled={!props.canRedo} onClick={props.onRedo}>
            {sayOwnArch('printRedo')}
          </button>
        </span>
        <label className="tick">
          <input type="checkbox" checked={fine} onChange={(event) => setFine(event.target.checked)} />
          {sayOwnArch('printFine')}
        </label>
        <label className="tick">
          <input type="checkbox" checked={props.snaps} onChange={(event) => props.onSnaps(event.target.checked)} />
          {sayOwnArch('printSnaps')}
        </label>
      </div>
    </div>
  );
}

interface PrintLinesProps {
  readonly draft: PrintDraft;
  readonly curve: readonly Point[];
  readonly view: Viewport;
  readonly frame: { readonly width: number; readonly height: number };
}

/** Squares on edges, crosses at corners and ends; the card's sides; the fitted form; R and L beside the first and the last tooth. */
function PrintLines({ draft, curve, view, frame }: PrintLinesProps): ReactNode {
  const path = (points: readonly Point[], close = false): string =>
    points.length < 2 ? '' : `M${points.map((point) => toFrame(view, point)).map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}${close ? 'Z' : ''}`;
  const sides = draft.by === 'circle' ? '' : path(draft[draft.by], draft.card.length === 4 && draft.by === 'card');
  const form = path(curve);
  const ends = draft.teeth.length < 2 ? [] : ([['right', draft.teeth[0]!], ['left', draft.teeth.at(-1)!]] as const);
  return (
    <svg className="picture-lines" viewBox={`0 0 ${frame.width} ${frame.height}`} aria-hidden="true">
      {[sides, form].map((line, at) =>
        line === '' ? null : (
          <g key={at} className={at === 1 ? 'print-curve' : undefined}>
            <path className="mark-halo" d={line} />
            <path className="mark-line" d={line} />
          </g>
        ),
      )}
      {marksPut(draft).map((id) => {
        const at = toFrame(view, markAt(draft, id)!);
        const sign = ['card', 'ruler'].includes(partsOf(id).group) ? 'M-8 0H-3M3 0H8M0 -8V-3M0 3V8' : 'M-3 -3H3V3H-3Z';
        return (
          <g key={id} transform={`translate(${at.x} ${at.y})`}>
            <path className="mark-halo" d={sign} />
            <path className="mark-line" d={sign} />
          </g>
        );
      })}
      {ends.map(([side, { point }]) => {
        const at = toFrame(view, point);
        return (
          <text key={side} className="print-side" x={at.x} y={at.y + SIDE_BELOW_PX} textAnchor="middle">
            {sayOwnArch(side)}
          </text>
        );
      })}
    </svg>
  );
}

const SIDE_BELOW_PX = 22;
