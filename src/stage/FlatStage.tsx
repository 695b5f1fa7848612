/**
 * The stage without three dimensions: a section from the side and a view from the front, as SVG. Takes the same props as `Stage` and
 * loads nothing of three. The rim is dragged in either drawing: up and down in the section, both ways from the front.
 */
import { memo, useLayoutEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import { moveJaw } from '../core/arch';
import type { JawSpec } from '../core/specs';
import { placeTeeth } from './dentition';
import { MouthFromFront, MouthFromSide } from './FlatMouth';
import { AxisFromSide, FlatLips, RimFromFront, RimFromSide } from './FlatRim';
import { jawFaces } from './jawFaces';
import { palettes, type StagePalette } from './palette';
import { PressureLegend } from './PressureLegend';
import { pressureScaleKPa } from './pressureScale';
import type { StageProps, Travel } from './props';
import { RimHandle } from './RimHandle';
import { stageStyle } from './stageStyle';
import { useDrawingPlace } from './useDrawingPlace';
import { englishStageWords } from './words';

interface FlatStageProps extends StageProps {
  /** Why the drawing is flat. */
  readonly message?: string;
}

/** Never smaller than a finger needs, px. */
const HANDLE_LEAST_PX = 44;
/** Window of each drawing in mm: from the left and top edge, width and height. */
const SIDE = { left: -16, top: 27, width: 92, height: 58 };
const FRONT = { left: -36, top: 27, width: 72, height: 58 };

export function FlatStage(props: FlatStageProps) {
  const { arch: ownArch, teeth, rim, lips, lipLineMm, analysis, path, live, horn, theme, camera } = props;
  const words = props.words ?? englishStageWords;
  const palette = palettes[theme];
  const frame = useSyncExternalStore(live.subscribe, live.current);
  const jaw = useSameJaw(frame?.jaw ?? null);
  const arch = useMemo(() => (jaw === null ? ownArch : moveJaw(ownArch, jaw)), [ownArch, jaw]);
  const jaws = useMemo(() => jawFaces(arch).map((face) => ({ face, teeth: placeTeeth(face, teeth) })), [arch, teeth]);
  const scaleKPa = useMemo(() => pressureScaleKPa(analysis), [analysis]);
  const mirrored = camera === 'mirror';
  const front = useRef<SVGSVGElement>(null);
  const handle = useRef<HTMLButtonElement>(null);
  const drawings = useRef<HTMLDivElement>(null);
  const placing = useDrawingPlace(drawings, front);

  const under = (clientX: number, clientY: number) => {
    const at = placing.inDrawing(clientX, clientY);
    return at && { x: mirrored ? -at.x : at.x, y: -at.y };
  };
  // The handle lies over the rim in the front view, whatever size that has.
  useLayoutEffect(() => {
    const place = (): void => {
      const drawing = placing.place();
      const element = handle.current;
      if (!drawing || !element || !frame) return;
      const [x, y] = frame.shown.rimCentreMm;
      const size = Math.max(HANDLE_LEAST_PX, rim.outerDiameterMm * drawing.pxPerMm);
      const left = drawing.leftPx + (mirrored ? -x : x) * drawing.pxPerMm - size / 2;
      const top = drawing.topPx - y * drawing.pxPerMm - size / 2;
      element.style.width = `${size}px`;
      element.style.height = `${size}px`;
      element.style.transform = `translate(${left}px, ${top}px)`;
    };
    place();
    return placing.onChange(place);
  }, [frame, mirrored, rim, placing]);
  const load = frame && (horn === 'held' ? frame.held : frame.follow).load;
  return (
    <div className="stage stage-flat" data-theme={theme} style={stageStyle(palette)} role="group" aria-label={words.stage}>
      <div ref={drawings} className="stage-flat-drawings">
        <svg className="stage-flat-side" viewBox={`${SIDE.left} ${-SIDE.top} ${SIDE.width} ${SIDE.height}`} role="img" aria-label={words.flatSide}>
          <MouthFromSide jaws={jaws} palette={palette} />
          {frame && <FlatLips arch={arch} lips={lips} rim={rim} pose={frame.shown} lipLineMm={lipLineMm} palette={palette} />}
          {frame && <RimFromSide rim={rim} pose={frame.shown} palette={palette} />}
          {frame && props.showHeldGhost && <AxisFromSide pose={frame.held.pose} color={palette.held} dashed />}
          {frame && <AxisFromSide pose={frame.shown} color={palette.predicted} />}
        </svg>
        <svg ref={front} className="stage-flat-front" viewBox={`${FRONT.left} ${-FRONT.top} ${FRONT.width} ${FRONT.height}`} role="img" aria-label={words.flatFront}>
          <g transform={mirrored ? 'scale(-1 1)' : undefined}>
            <MouthFromFront jaws={jaws} palette={palette} />
            {frame && load && <RimFromFront rim={rim} pose={frame.shown} ring={load.ringPressureKPa} scaleKPa={scaleKPa} palette={palette} />}
            <PathFromFront path={path} analysis={analysis} selected={props.selected} palette={palette} />
          </g>
        </svg>
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
      </div>
      <p className="stage-flat-angle">{frame && words.hornAngle(frame.shown)}</p>
      <PressureLegend scaleKPa={scaleKPa} words={words} />
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

/** The same object as long as the jaw stands at the same place: the mouth is not drawn anew for every frame that says so. */
function useSameJaw(jaw: JawSpec | null): JawSpec | null {
  const [kept, setKept] = useState(jaw);
  const same = kept === jaw || (kept !== null && jaw !== null && JAW_FIELDS.every((field) => kept[field] === jaw[field]));
  if (!same) setKept(jaw);
  return same ? kept : jaw;
}

const JAW_FIELDS = ['openingMm', 'forwardMm', 'hingeDeg', 'hingeArmMm'] as const;
