/**
 * The stage without three dimensions: a section from the side, or from above where that is asked for, and a view from the front, as SVG.
 * Takes the same props as `Stage` and loads nothing of three. The rim is dragged in the view from the front.
 */
import { memo, useCallback, useEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import { moveJaw } from '../core/arch';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { JawSpec } from '../core/specs';
import { placeTeeth } from './dentition';
import { MouthFromAbove, MouthFromFront, MouthFromSide } from './FlatMouth';
import { AxisCut, FlatLips, RimCut, RimFromFront } from './FlatRim';
import { jawFaces } from './jawFaces';
import { palettes, type StagePalette } from './palette';
import { PressureLegend } from './PressureLegend';
import { pressureScaleKPa } from './pressureScale';
import type { StagePart, StageProps, Travel } from './props';
import { RimHandle } from './RimHandle';
import { stageStyle } from './stageStyle';
import { useDrawingPlace } from './useDrawingPlace';
import { useLiveElement } from './useLiveElement';
import { ownStageWords } from './words';

interface FlatStageProps extends StageProps {
  /** Why the drawing is flat. */
  readonly message?: string;
}

/** Never smaller than a finger needs, px. */
const HANDLE_LEAST_PX = 44;
/** Window of each drawing in mm: from the left and top edge, width and height. */
const SIDE = { left: -16, top: 27, width: 92, height: 58 };
const ABOVE = { left: -20, top: 29, width: 92, height: 58 };
/** Where no horn needs the room, as much of the arch as is drawn. */
const ABOVE_TEETH = { left: -42, top: 30, width: 60, height: 60 };
const NOTHING_LEFT_OUT: readonly StagePart[] = [];
const FRONT = { left: -36, top: 27, width: 72, height: 58 };

const boxOf = ({ left, top, width, height }: typeof FRONT): string => `${left} ${-top} ${width} ${height}`;

export function FlatStage(props: FlatStageProps) {
  const { arch: ownArch, teeth, rim, lips, lipLineMm, analysis, path, live, horn, theme, camera, without = NOTHING_LEFT_OUT } = props;
  const has = (part: StagePart): boolean => !without.includes(part);
  const ownWords = useMemo(ownStageWords, []);
  const words = props.words ?? ownWords;
  const palette = palettes[theme];
  const jaw = useLiveJaw(live);
  const shows = useSyncExternalStore(live.subscribe, () => live.current() !== null);
  const arch = useMemo(() => (jaw === null ? ownArch : moveJaw(ownArch, jaw)), [ownArch, jaw]);
  const jaws = useMemo(() => jawFaces(arch).map((face) => ({ face, teeth: placeTeeth(face, teeth) })), [arch, teeth]);
  const scaleKPa = useMemo(() => pressureScaleKPa(analysis), [analysis]);
  const mirrored = camera === 'mirror';
  const plane = camera === 'above' ? 'above' : 'side';
  const front = useRef<SVGSVGElement>(null);
  const drawings = useRef<HTMLDivElement>(null);
  const placing = useDrawingPlace(drawings, front);

  const under = (clientX: number, clientY: number) => {
    const at = placing.inDrawing(clientX, clientY);
    return at && { x: mirrored ? -at.x : at.x, y: -at.y };
  };
  // The handle lies over the rim in the front view, whatever size that has.
  const place = useCallback(
    (element: HTMLButtonElement, { shown }: LiveFrame): void => {
      const drawing = placing.place();
      if (!drawing) return;
      const [x, y] = shown.rimCentreMm;
      const size = Math.max(HANDLE_LEAST_PX, rim.outerDiameterMm * drawing.pxPerMm);
      const left = drawing.leftPx + (mirrored ? -x : x) * drawing.pxPerMm - size / 2;
      const top = drawing.topPx - y * drawing.pxPerMm - size / 2;
      element.style.width = `${size}px`;
      element.style.height = `${size}px`;
      element.style.transform = `translate(${left}px, ${top}px)`;
    },
    [mirrored, rim, placing],
  );
  const handle = useLiveElement(live, place);
  useEffect(
    () =>
      placing.onChange(() => {
        const frame = live.current();
        if (handle.current && frame) place(handle.current, frame);
      }),
    [placing, live, place, handle],
  );
  const angle = useLiveElement<HTMLParagraphElement>(live, (element, { shown }) => void (element.textContent = words.hornAngle(shown)));
  return (
    <div className="stage stage-flat" data-theme={theme} style={stageStyle(palette)} role="group" aria-label={words.stage}>
      <div ref={drawings} className="stage-flat-drawings">
        <svg className="stage-flat-section" viewBox={boxOf(plane === 'side' ? SIDE : has('horn') ? ABOVE : ABOVE_TEETH)} role="img" aria-label={plane === 'side' ? words.flatSide : words.flatAbove}>
          {plane === 'side' ? (
            <>
              <MouthFromSide jaws={jaws} palette={palette} />
              {shows && has('lips') && <FlatLips arch={arch} lips={lips} rim={rim} live={live} lipLineMm={lipLineMm} palette={palette} />}
            </>
          ) : (
            <MouthFromAbove jaws={jaws} lipMm={has('lips') ? lips.upper.thicknessMm : null} palette={palette} />
          )}
          {shows && has('horn') && <RimCut plane={plane} rim={rim} live={live} palette={palette} />}
          {shows && props.showHeldGhost && <AxisCut plane={plane} live={live} of="held" color={palette.held} />}
          {shows && has('horn') && <AxisCut plane={plane} live={live} of="shown" color={palette.predicted} />}
        </svg>
        <svg ref={front} className="stage-flat-front" viewBox={boxOf(FRONT)} role="img" aria-label={words.flatFront}>
          <g transform={mirrored ? 'scale(-1 1)' : undefined}>
            <MouthFromFront jaws={jaws} palette={palette} />
            {shows && has('horn') && <RimFromFront rim={rim} live={live} horn={horn} scaleKPa={scaleKPa} palette={palette} />}
            {has('fan') && <PathFromFront path={path} analysis={analysis} selected={props.selected} palette={palette} />}
          </g>
        </svg>
        {has('handle') && (
          <RimHandle
            live={live}
            words={words}
            handle={handle}
            pointUnder={under}
            arrowRight={() => (mirrored ? 1 : -1)}
            onDragStart={props.onDragStart}
            onDragTravel={(travel: Travel) => props.onDragTravel(travel)}
            onDragEnd={props.onDragEnd}
            onNudge={props.onNudge}
          />
        )}
      </div>
      {has('angle') && <p ref={angle} className="stage-flat-angle" />}
      {has('pressure') && <PressureLegend scaleKPa={scaleKPa} words={words} />}
      <p className="stage-message">{props.message ?? words.noPicture}</p>
    </div>
  );
}

/** The rim's centre along the path, and at each note. */
const PathFromFront = memo(function PathFromFront({ path, analysis, selected, palette }: Pick<StageProps, 'path' | 'analysis' | 'selected'> & { palette: StagePalette }) {
  return (
    <>
      {path.map((way, index) => (
        <polyline key={index} points={way.map(({ follow }) => `${follow.pose.rimCentreMm[0]},${-follow.pose.rimCentreMm[1]}`).join(' ')} fill="none" stroke={palette.predicted} strokeWidth="0.6" />
      ))}
      {analysis.readings.map((reading, index) => (
        <circle key={index} cx={reading.follow.pose.rimCentreMm[0]} cy={-reading.follow.pose.rimCentreMm[1]} r={index === selected ? 1.3 : 0.8} fill={palette.predicted} />
      ))}
    </>
  );
});

/** Where the lower jaw stands in the live frame; the same object as long as it stands there, so that the mouth is not drawn anew for every frame. */
function useLiveJaw(live: LiveSource): JawSpec | null {
  const kept = useRef<JawSpec | null>(null);
  return useSyncExternalStore(live.subscribe, () => {
    const last = kept.current;
    const jaw = live.current()?.jaw ?? null;
    const same = last === jaw || (last !== null && jaw !== null && JAW_FIELDS.every((field) => last[field] === jaw[field]));
    if (!same) kept.current = jaw;
    return kept.current;
  });
}

const JAW_FIELDS = ['openingMm', 'forwardMm', 'hingeDeg', 'hingeArmMm'] as const;
