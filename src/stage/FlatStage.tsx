/**
 * The stage without three dimensions: a section from the side and a view from the front, as SVG. Takes the same props as `Stage` and
 * loads nothing of three. The rim is dragged in either drawing: up and down in the section, both ways from the front.
 */
import { useLayoutEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import { type Arch, moveJaw } from '../core/arch';
import type { RimPose } from '../core/analysis';
import { contourHeight } from '../core/rim';
import { crownSpot } from './crownShape';
import { type PlacedTooth, placeTeeth } from './dentition';
import { gumEnd, marginAt } from './gumShape';
import { jawFaces } from './jawFaces';
import { palettes, type StagePalette } from './palette';
import { PressureLegend } from './PressureLegend';
import { pressureScaleKPa } from './pressureScale';
import type { StageProps, Travel } from './props';
import { cividisInto } from './cividis';
import { RimHandle } from './RimHandle';
import { instrumentProfiles } from './rimShape';
import { jawSection, type Outline } from './sectionShape';
import { stageStyle } from './stageStyle';
import { lipSection } from './flatLips';
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
  const jaw = frame?.jaw ?? null;
  const arch = useMemo(() => (jaw === null ? ownArch : moveJaw(ownArch, jaw)), [ownArch, jaw]);
  const jaws = useMemo(() => jawFaces(arch).map((face) => ({ face, teeth: placeTeeth(face, teeth) })), [arch, teeth]);
  const scaleKPa = useMemo(() => pressureScaleKPa(analysis), [analysis]);
  const mirrored = camera === 'mirror';
  const front = useRef<SVGSVGElement>(null);
  const handle = useRef<HTMLButtonElement>(null);
  const drawings = useRef<HTMLDivElement>(null);

  const under = (clientX: number, clientY: number) => {
    const matrix = front.current?.getScreenCTM();
    if (!matrix) return null;
    const point = new DOMPoint(clientX, clientY).matrixTransform(matrix.inverse());
    return { x: mirrored ? -point.x : point.x, y: -point.y };
  };
  // The handle lies over the rim in the front view, whatever size that has.
  useLayoutEffect(() => {
    const place = (): void => {
      const matrix = front.current?.getScreenCTM();
      const corner = drawings.current?.getBoundingClientRect();
      const element = handle.current;
      if (!matrix || !corner || !element || !frame) return;
      const [x, y] = frame.shown.rimCentreMm;
      const centre = new DOMPoint(mirrored ? -x : x, -y).matrixTransform(matrix);
      const size = Math.max(HANDLE_LEAST_PX, rim.outerDiameterMm * matrix.a);
      element.style.width = `${size}px`;
      element.style.height = `${size}px`;
      element.style.transform = `translate(${centre.x - corner.left - size / 2}px, ${centre.y - corner.top - size / 2}px)`;
    };
    place();
    // The drawings change size with the window, with the theme's larger type and with what stands beside them.
    const sizes = new ResizeObserver(place);
    if (drawings.current) sizes.observe(drawings.current);
    window.addEventListener('resize', place);
    return () => {
      sizes.disconnect();
      window.removeEventListener('resize', place);
    };
  }, [frame, mirrored, rim]);
  const load = frame && (horn === 'held' ? frame.held : frame.follow).load;
  return (
    <div className="stage stage-flat" data-theme={theme} style={stageStyle(palette)} role="group" aria-label={words.stage}>
      <div ref={drawings} className="stage-flat-drawings">
        <svg className="stage-flat-side" viewBox={`${SIDE.left} ${-SIDE.top} ${SIDE.width} ${SIDE.height}`} role="img" aria-label={words.flatSide}>
          {jaws.map((jaw) => {
            const section = jawSection(jaw.face, jaw.teeth, 0);
            return (
              <g key={jaw.face.upper ? 'upper' : 'lower'} stroke={palette.sectionLine} strokeWidth="0.25">
                <path d={closed(section.gum)} fill={palette.gum} />
                <path d={closed(section.root)} fill={palette.ivoryNeck} />
                <path d={closed(section.crown)} fill={palette.ivory} />
              </g>
            );
          })}
          {frame && <FlatLips arch={arch} lips={lips} rim={rim} pose={frame.shown} lipLineMm={lipLineMm} palette={palette} />}
          {frame && <RimFromSide rim={rim} pose={frame.shown} palette={palette} />}
          {frame && props.showHeldGhost && <AxisFromSide pose={frame.held.pose} color={palette.held} dashed />}
          {frame && <AxisFromSide pose={frame.shown} color={palette.predicted} />}
        </svg>
        <svg ref={front} className="stage-flat-front" viewBox={`${FRONT.left} ${-FRONT.top} ${FRONT.width} ${FRONT.height}`} role="img" aria-label={words.flatFront}>
          <g transform={mirrored ? 'scale(-1 1)' : undefined}>
            {jaws.map((jaw) => (
              <g key={jaw.face.upper ? 'upper' : 'lower'} stroke={palette.sectionLine} strokeWidth="0.2">
                <path d={gumFromFront(jaw.teeth)} fill={palette.gum} />
                {jaw.teeth.map((tooth) => (
                  <path key={tooth.fdi} d={crownFromFront(tooth)} fill={palette.ivory} />
                ))}
              </g>
            ))}
            {frame && load && <RimFromFront rim={rim} pose={frame.shown} ring={load.ringPressureKPa} scaleKPa={scaleKPa} palette={palette} />}
            {path.map((way, index) => (
              <polyline key={index} points={way.map(({ follow }) => `${follow.pose.rimCentreMm[0]},${-follow.pose.rimCentreMm[1]}`).join(' ')} fill="none" stroke={palette.predicted} strokeWidth="0.6" />
            ))}
            {analysis.readings.map((reading, index) => (
              <circle key={index} cx={reading.follow.pose.rimCentreMm[0]} cy={-reading.follow.pose.rimCentreMm[1]} r={index === props.selected ? 1.3 : 0.8} fill={palette.predicted} />
            ))}
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

const closed = (outline: Outline): string => `M${outline.map(([y, z]) => `${z.toFixed(2)},${(-y).toFixed(2)}`).join('L')}Z`;

interface PoseProps {
  readonly pose: RimPose;
  readonly palette: StagePalette;
}

function FlatLips({ arch, lips, rim, pose, lipLineMm, palette }: PoseProps & Pick<StageProps, 'lips' | 'rim' | 'lipLineMm'> & { arch: Arch }) {
  const parts = lipSection(arch, lips, rim, pose, lipLineMm);
  return (
    <g stroke={palette.sectionLine} strokeWidth="0.25" fillOpacity="0.85">
      <path d={closed(parts.upper)} fill={palette.lipCut} />
      <path d={closed(parts.lower)} fill={palette.lipCut} />
    </g>
  );
}

function RimFromSide({ rim, pose, palette }: PoseProps & Pick<StageProps, 'rim'>) {
  const profiles = useMemo(() => instrumentProfiles(rim, (radius) => contourHeight(rim, radius)), [rim]);
  const level = Math.hypot(pose.axis[1], pose.axis[2]) || 1;
  const degrees = (Math.atan2(pose.axis[1], pose.axis[2]) * 180) / Math.PI;
  const outline = (sign: 1 | -1): string =>
    `${closed(profiles.body.map(([radius, along]) => [radius * sign, along] as const))}${closed(profiles.rim.map(([radius, along]) => [radius * sign, along] as const))}`;
  return (
    <g transform={`translate(${pose.rimCentreMm[2]} ${-pose.rimCentreMm[1]}) rotate(${-degrees}) scale(${level} 1)`} fill={palette.brassCut} stroke={palette.brass} strokeWidth="0.3">
      <path d={outline(1)} />
      <path d={outline(-1)} />
    </g>
  );
}

/** Length of the horn's axis in the section, mm. */
const AXIS_MM = 62;

function AxisFromSide({ pose, color, dashed = false }: { pose: RimPose; color: string; dashed?: boolean }) {
  const [, y, z] = pose.rimCentreMm;
  return (
    <line x1={z} y1={-y} x2={z + pose.axis[2] * AXIS_MM} y2={-(y + pose.axis[1] * AXIS_MM)} stroke={color} strokeWidth="0.5" strokeDasharray={dashed ? '2 1.4' : undefined} />
  );
}

function RimFromFront({ rim, pose, ring, scaleKPa, palette }: PoseProps & Pick<StageProps, 'rim'> & { ring: Float64Array; scaleKPa: number }) {
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const colors = useRef(new Float32Array(3));
  const [x, y] = pose.rimCentreMm;
  const segments = Array.from({ length: ring.length }, (_, index) => {
    const middle = (2 * Math.PI * index) / ring.length;
    const half = Math.PI / ring.length;
    const at = (angle: number, radius: number): string => `${(Math.cos(angle) * radius).toFixed(2)},${(-Math.sin(angle) * radius).toFixed(2)}`;
    cividisInto(ring[index]! / scaleKPa, colors.current, 0);
    const [red, green, blue] = Array.from(colors.current, (value) => Math.round(value * 255));
    return (
      <path key={index} d={`M${at(middle - half, inner)}L${at(middle - half, outer)}L${at(middle + half, outer)}L${at(middle + half, inner)}Z`} fill={`rgb(${red} ${green} ${blue})`} stroke={`rgb(${red} ${green} ${blue})`} strokeWidth="0.15" />
    );
  });
  return (
    <g transform={`translate(${x} ${-y})`}>
      <g opacity="0.85">{segments}</g>
      <circle r={inner} fill="none" stroke={palette.brass} strokeWidth="0.7" />
      <circle r={outer} fill="none" stroke={palette.brass} strokeWidth="0.7" />
    </g>
  );
}

function crownFromFront(tooth: PlacedTooth): string {
  const steps = 24;
  const at = (part: number, around: number): string => {
    const spot = crownSpot(tooth, part, around);
    const [x, y] = tooth.face.pointAt(tooth.arcMm + spot.acrossMm * tooth.distal, spot.heightMm);
    return `${x.toFixed(2)},${(-y).toFixed(2)}`;
  };
  const edge = Array.from({ length: steps + 1 }, (_, step) => at(0, (Math.PI * step) / steps));
  const distal = Array.from({ length: 8 }, (_, step) => at((step + 1) / 9, Math.PI));
  const neck = Array.from({ length: steps + 1 }, (_, step) => at(1, Math.PI * (1 - step / steps)));
  const mesial = Array.from({ length: 8 }, (_, step) => at((8 - step) / 9, 0));
  return `M${[...edge, ...distal, ...neck, ...mesial].join('L')}Z`;
}

function gumFromFront(teeth: readonly PlacedTooth[]): string {
  const first = teeth[0]!;
  const last = teeth[teeth.length - 1]!;
  const from = first.arcMm - first.measures.widthMm / 2;
  const to = last.arcMm + last.measures.widthMm / 2;
  const steps = 120;
  const margin: string[] = [];
  const end: string[] = [];
  for (let step = 0; step <= steps; step++) {
    const arc = from + ((to - from) * step) / steps;
    const low = first.face.pointAt(arc, marginAt(teeth, arc));
    const high = first.face.pointAt(arc, gumEnd(first.face));
    margin.push(`${low[0].toFixed(2)},${(-low[1]).toFixed(2)}`);
    end.unshift(`${high[0].toFixed(2)},${(-high[1]).toFixed(2)}`);
  }
  return `M${[...margin, ...end].join('L')}Z`;
}

