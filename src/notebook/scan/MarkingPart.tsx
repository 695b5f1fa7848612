/** Three teeth marked on the scan, by a tap or by keys. */
import { type KeyboardEvent, type ReactNode, useState } from 'react';
import type { Vec3 } from '../../core/vector';
import { type ScanPicture, placeAt } from '../../scans/drawScan';
import { type Px, type ScanView, depthOf, toPx } from '../../scans/scanView';
import type { JawName } from '../../scans/startView';
import { sayScans } from '../../words/scans';
import { Choice } from '../Choice';
import { stepOf } from '../measure/keySteps';
import { ScanCanvas } from './ScanCanvas';
import { type JawWork, type PictureSource, type SideTeeth, TEETH, type ToothName } from './props';
import { letterWords, markWords } from './words';

export interface MarkingPartProps {
  readonly jaw: JawName;
  readonly work: JawWork;
  readonly source: PictureSource;
  readonly first: ScanView;
  onSides(sides: SideTeeth): void;
  onMark(tooth: ToothName, place: Vec3): void;
}

/** A tap beside the scan by so much still finds it, px. */
const NEAR_PX = 6;
/** One press of an arrow key moves the cross so far, px: with Shift ten times, with Alt a tenth. */
const STEP_PX = 5;

export function MarkingPart({ jaw, work, source, first, onSides, onMark }: MarkingPartProps): ReactNode {
  const { marks, sides } = work;
  const [chosen, setChosen] = useState<ToothName | null>(null);
  const [missed, setMissed] = useState(false);
  const next = TEETH.find((tooth) => marks[tooth] === undefined) ?? null;
  const active = chosen ?? next;
  const put = (picture: ScanPicture, at: Px): void => {
    if (active === null) return;
    const place = placeAt(picture, at, NEAR_PX);
    setMissed(place === null);
    if (place === null) return;
    setChosen(null);
    onMark(active, place);
  };
  return (
    <div className="scan-marking">
      <Choice<SideTeeth>
        legend={sayScans('pair')}
        options={[{ value: 'canines', label: sayScans('canines') }, { value: 'molars', label: sayScans('molars') }]}
        value={sides}
        onChange={onSides}
      />
      <p className="note">{sayScans('pairHint')}</p>
      <div role="status">
        <p>{active === null ? sayScans('marksAll') : sayScans('markNow', { mark: markWords(jaw, sides, active) })}</p>
        {missed ? <p className="caution">{sayScans('offScan')}</p> : null}
      </div>
      <ScanCanvas source={source} withDifferences={false} label={sayScans('pictureName', { jaw })} first={first} onTap={put}>
        {(picture, dots) => (
          <>
            <MarksOver picture={picture} dots={dots} marks={marks} active={active} />
            {active === null ? null : <Cross picture={picture} dots={dots} label={sayScans('putHere', { mark: markWords(jaw, sides, active) })} onPut={(at) => put(picture, at)} />}
          </>
        )}
      </ScanCanvas>
      <p className="note">{sayScans('pictureHelp')}</p>
      <ul className="scan-marks" aria-label={sayScans('marksLegend')}>
        {TEETH.map((tooth) => (
          <li key={tooth}>
            <button type="button" className="quiet" aria-pressed={tooth === active} onClick={() => setChosen(tooth)}>
              {marks[tooth] === undefined ? markWords(jaw, sides, tooth) : sayScans('marked', { name: markWords(jaw, sides, tooth) })}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** A mark is drawn pale where the scan's surface lies nearer to the eye than it by as much as so many px are wide. */
const HIDDEN_PX = 8;

function MarksOver({ picture, dots, marks, active }: { readonly picture: ScanPicture; readonly dots: number; readonly marks: JawWork['marks']; readonly active: ToothName | null }): ReactNode {
  const { view, width, height } = picture;
  return (
    <svg className="scan-view__marks" viewBox={`0 0 ${width / dots} ${height / dots}`} aria-hidden="true">
      {TEETH.map((tooth) => {
        const place = marks[tooth];
        if (place === undefined) return null;
        const at = toPx(view, picture, place);
        const [x, y] = [at.x / dots, at.y / dots];
        const surface = picture.depth[Math.floor(at.y) * width + Math.floor(at.x)] ?? -Infinity;
        const hidden = surface > depthOf(view, place) + (HIDDEN_PX * view.across) / width;
        return (
          <g key={tooth} data-tooth={tooth} data-active={tooth === active} data-hidden={hidden} transform={`translate(${x} ${y})`}>
            <path className="mark-halo" d="M-12 0H-3M3 0H12M0 -12V-3M0 3V12" />
            <path className="mark-line" d="M-12 0H-3M3 0H12M0 -12V-3M0 3V12" />
            <text className="scan-view__letter" x="10" y="-8">
              {letterWords(tooth)}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** For those who go by keys: a cross that the arrow keys move over the scan. Seen only while it has the focus. */
function Cross({ picture, dots, label, onPut }: { readonly picture: ScanPicture; readonly dots: number; readonly label: string; onPut(at: Px): void }): ReactNode {
  const [at, setAt] = useState<Px>({ x: picture.width / 2, y: picture.height / 2 });
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = stepOf(event, false);
    if (step === null) return;
    event.preventDefault();
    event.stopPropagation();
    const held = (value: number, most: number): number => Math.min(Math.max(value, 0), most - 1);
    setAt({ x: held(at.x + step.x * STEP_PX * dots, picture.width), y: held(at.y + step.y * STEP_PX * dots, picture.height) });
  };
  return (
    <button
      type="button"
      className="scan-view__cross"
      aria-label={label}
      aria-keyshortcuts="ArrowUp ArrowDown ArrowLeft ArrowRight Enter"
      style={{ left: at.x / dots, top: at.y / dots }}
      onKeyDown={onKeyDown}
      onClick={() => onPut(at)}
    >
      <svg viewBox="-20 -20 40 40" aria-hidden="true">
        <path className="mark-halo" d="M-18 0H-4M4 0H18M0 -18V-4M0 4V18" />
        <path className="mark-line" d="M-18 0H-4M4 0H18M0 -18V-4M0 4V18" />
      </svg>
    </button>
  );
}
