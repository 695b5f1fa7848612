import { type KeyboardEvent, type ReactNode, useLayoutEffect, useRef, useState } from 'react';
import type { ViewFrom } from '../../measure/marks';
import type { Point } from '../../measure/picture';
import type { TracedRim } from '../../measure/traces';
import { sayMarking } from '../../words/marking';
import { fixed } from '../../words/numbers';
import { Loupe } from './Loupe';
import { MarkButton } from './MarkButton';
import { PictureLines } from './PictureLines';
import { PutCross } from './PutCross';
import { markHint, markName } from './markNames';
import { type DraftMarks, type MarkId, markAt, marksPut, nudged } from './marksEdits';
import { placeIn, usePicturePointers } from './usePicturePointers';
import { useViewport } from './useViewport';
import { type Size, type Viewport, isInside, toFrame, toPicture } from './viewport';

export interface MeasuringPictureProps {
  /** The file's name, for those who hear the page. */
  readonly name: string;
  readonly image: CanvasImageSource;
  /** The same made smaller, drawn where its pixels are enough; absent or null: there is none. */
  readonly small?: ImageBitmap | null | undefined;
  readonly size: Size;
  readonly view: ViewFrom;
  readonly marks: DraftMarks;
  readonly ellipse: TracedRim | null;
  readonly active: MarkId | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Drawn between the picture and its marks, in the frame's px. */
  readonly overlay?: ((view: Viewport) => ReactNode) | undefined;
  /** Under the buttons. */
  readonly children?: ReactNode;
  onPut(point: Point): void;
  onMove(id: MarkId, point: Point, key: string): void;
  /** `snap`: a hand has let it go; by keys it stays where it was put. */
  onSettle(id: MarkId, snap: boolean): void;
  onTake(id: MarkId): void;
  onUndo(): void;
  onRedo(): void;
}

const ZOOM_STEP = 1.5;

/** A picture with its marks: put by a tap or by keys, moved by a drag or by the arrow keys, seen as large as one likes. */
export function MeasuringPicture(props: MeasuringPictureProps): ReactNode {
  const { image, size, marks, active, onPut, onMove, onSettle } = props;
  const seen = useViewport(size);
  const { view } = seen;
  const [fine, setFine] = useState(false);
  const [held, setHeld] = useState<MarkId | null>(null);
  const surface = useRef<HTMLDivElement>(null);
  const dragFrom = useRef<{ readonly press: number; readonly point: Point } | null>(null);
  const putAt = (place: Point): void => {
    const point = view && toPicture(view, place);
    if (point !== null && isInside(point, size)) onPut(nudged(point, NO_STEP, size));
  };
  const pointers = usePicturePointers(surface, {
    onTap: putAt,
    onPan: seen.pan,
    onZoom: seen.zoom,
  });
  const drag = (id: MarkId, by: Point, press: number): void => {
    const at = markAt(marks, id);
    if (view === null || at === null) return;
    if (dragFrom.current?.press !== press) dragFrom.current = { press, point: at };
    setHeld(id);
    onMove(id, nudged(dragFrom.current.point, { x: by.x / view.scale, y: by.y / view.scale }, size), `drag:${id}:${press}`);
  };
  const letGo = (id: MarkId): void => {
    dragFrom.current = null;
    setHeld(null);
    onSettle(id, true);
  };
  const lookedAt = held === null ? null : markAt(marks, held);
  return (
    <div className="measuring" onKeyDown={undoKeys(props)}>
      <div ref={seen.frame} className="stage-frame measuring__frame" role="group" aria-label={sayMarking('picture', { file: props.name })}>
        {view === null ? null : (
          <>
            <PictureCanvas image={image} small={props.small ?? null} size={size} scale={view.scale} leftPx={view.leftPx} topPx={view.topPx} frame={seen.frameSize} />
            {props.overlay === undefined ? null : (
              <svg className="picture-lines" viewBox={`0 0 ${seen.frameSize.width} ${seen.frameSize.height}`} aria-hidden="true">
                {props.overlay(view)}
              </svg>
            )}
            <PictureLines marks={marks} ellipse={props.ellipse} view={view} frame={seen.frameSize} active={active} />
          </>
        )}
        <div ref={surface} className="measuring__surface" data-puts={active !== null} {...pointers}>
          {view === null || active === null ? null : (
            <PutCross
              label={sayMarking('putHere', { mark: markName(active), hint: markHint(active, props.view) })}
              view={view}
              frame={seen.frameSize}
              picture={size}
              fine={fine}
              onMoved={seen.reveal}
              onPut={onPut}
            />
          )}
          {view === null
            ? null
            : marksPut(marks).map((id) => (
                <MarkButton
                  key={id}
                  name={markName(id)}
                  said={placeSaid(markAt(marks, id)!)}
                  at={toFrame(view, markAt(marks, id)!)}
                  fine={fine}
                  onTap={(client) => {
                    if (active !== null && surface.current !== null) putAt(placeIn(surface.current, client));
                  }}
                  onDrag={(by, press) => drag(id, by, press)}
                  onDrop={() => letGo(id)}
                  onNudge={(step) => {
                    const next = nudged(markAt(marks, id)!, step, size);
                    setHeld(id);
                    seen.reveal(next);
                    onMove(id, next, `nudge:${id}`);
                  }}
                  onFocused={() => seen.reveal(markAt(marks, id)!)}
                  onLeft={() => {
                    setHeld(null);
                    onSettle(id, false);
                  }}
                  onTake={() => {
                    setHeld(null);
                    props.onTake(id);
                  }}
                />
              ))}
        </div>
        {view === null || lookedAt === null ? null : <Loupe image={image} picture={size} view={view} frame={seen.frameSize} at={lookedAt} />}
      </div>
      <div className="looking measuring__bar">
        <span className="button-row" role="group" aria-label={sayMarking('size')}>
          <button type="button" className="quiet" onClick={() => seen.zoom(1 / ZOOM_STEP)} disabled={seen.isWhole}>
            {sayMarking('smaller')}
          </button>
          <button type="button" className="quiet" onClick={() => seen.zoom(ZOOM_STEP)}>
            {sayMarking('larger')}
          </button>
          <button type="button" className="quiet" onClick={seen.whole} disabled={seen.isWhole}>
            {sayMarking('whole')}
          </button>
        </span>
        <span className="button-row" role="group" aria-label={sayMarking('steps')}>
          <button type="button" className="quiet" disabled={!props.canUndo} onClick={props.onUndo}>
            {sayMarking('undo')}
          </button>
          <button type="button" className="quiet" disabled={!props.canRedo} onClick={props.onRedo}>
            {sayMarking('redo')}
          </button>
        </span>
        <label className="tick">
          <input type="checkbox" checked={fine} onChange={(event) => setFine(event.target.checked)} />
          {sayMarking('fine')}
        </label>
      </div>
      {props.children}
    </div>
  );
}

/** Undo and redo by keys, of the marks and not of the record, as long as the focus is in here. */
export function undoKeys({ onUndo, onRedo }: Pick<MeasuringPictureProps, 'onUndo' | 'onRedo'>): (event: KeyboardEvent) => void {
  return (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
    if (event.target instanceof HTMLInputElement && event.target.type === 'text') return;
    event.preventDefault();
    event.stopPropagation();
    if (event.shiftKey) onRedo();
    else onUndo();
  };
}

interface PictureCanvasProps {
  readonly image: CanvasImageSource;
  readonly small: ImageBitmap | null;
  readonly size: Size;
  readonly scale: number;
  readonly leftPx: number;
  readonly topPx: number;
  readonly frame: Size;
}

/** From here on single pixels are wanted, and are not blurred into each other. */
const PIXELS_FROM_SCALE = 6;

export function PictureCanvas({ image, small, size, scale, leftPx, topPx, frame }: PictureCanvasProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const element = canvas.current;
    const context = element?.getContext('2d');
    if (element == null || context == null) return;
    const dots = window.devicePixelRatio;
    element.width = Math.round(frame.width * dots);
    element.height = Math.round(frame.height * dots);
    context.setTransform(dots, 0, 0, dots, 0, 0);
    context.imageSmoothingEnabled = scale < PIXELS_FROM_SCALE;
    context.imageSmoothingQuality = 'high';
    const isEnough = small !== null && small.width >= size.width * scale * dots;
    context.drawImage(isEnough ? small : image, leftPx, topPx, size.width * scale, size.height * scale);
  }, [image, small, size.width, size.height, scale, leftPx, topPx, frame]);
  return <canvas ref={canvas} className="measuring__canvas" aria-hidden="true" />;
}

const placeSaid = ({ x, y }: Point): string => sayMarking('placeAt', { x: fixed(x, 1), y: fixed(y, 1) });
const NO_STEP: Point = { x: 0, y: 0 };
