/** What moves in the flat drawing: lips, rim, pressure and the horn's axis, for one pose. Outlines that only turn are drawn once. */
import { useMemo, useRef } from 'react';
import type { RimPose } from '../core/analysis';
import type { Arch } from '../core/arch';
import { contourHeight } from '../core/rim';
import { cividisInto } from './cividis';
import { lipSection } from './flatLips';
import type { StagePalette } from './palette';
import type { StageProps } from './props';
import { instrumentProfiles } from './rimShape';
import { closedPath } from './sectionShape';

interface PoseProps {
  readonly pose: RimPose;
  readonly palette: StagePalette;
}

export function FlatLips({ arch, lips, rim, pose, lipLineMm, palette }: PoseProps & Pick<StageProps, 'lips' | 'rim' | 'lipLineMm'> & { arch: Arch }) {
  const parts = lipSection(arch, lips, rim, pose, lipLineMm);
  return (
    <g stroke={palette.sectionLine} strokeWidth="0.25" fillOpacity="0.85">
      <path d={closedPath(parts.upper)} fill={palette.lipCut} />
      <path d={closedPath(parts.lower)} fill={palette.lipCut} />
    </g>
  );
}

export function RimFromSide({ rim, pose, palette }: PoseProps & Pick<StageProps, 'rim'>) {
  const outlines = useMemo(() => {
    const profiles = instrumentProfiles(rim, (radius) => contourHeight(rim, radius));
    return ([1, -1] as const).map((sign) =>
      [profiles.body, profiles.rim].map((profile) => closedPath(profile.map(([radius, along]) => [radius * sign, along] as const))).join(''));
  }, [rim]);
  const level = Math.hypot(pose.axis[1], pose.axis[2]) || 1;
  const degrees = (Math.atan2(pose.axis[1], pose.axis[2]) * 180) / Math.PI;
  return (
    <g transform={`translate(${pose.rimCentreMm[2]} ${-pose.rimCentreMm[1]}) rotate(${-degrees}) scale(${level} 1)`} fill={palette.brassCut} stroke={palette.brass} strokeWidth="0.3">
      {outlines.map((outline, side) => (
        <path key={side} d={outline} />
      ))}
    </g>
  );
}

/** Length of the horn's axis in the section, mm. */
const AXIS_MM = 62;

export function AxisFromSide({ pose, color, dashed = false }: { pose: RimPose; color: string; dashed?: boolean }) {
  const [, y, z] = pose.rimCentreMm;
  return (
    <line x1={z} y1={-y} x2={z + pose.axis[2] * AXIS_MM} y2={-(y + pose.axis[1] * AXIS_MM)} stroke={color} strokeWidth="0.5" strokeDasharray={dashed ? '2 1.4' : undefined} />
  );
}

export function RimFromFront({ rim, pose, ring, scaleKPa, palette }: PoseProps & Pick<StageProps, 'rim'> & { ring: Float64Array; scaleKPa: number }) {
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const colors = useRef(new Float32Array(3));
  const [x, y] = pose.rimCentreMm;
  const count = ring.length;
  const segments = useMemo(
    () =>
      Array.from({ length: count }, (_, index) => {
        const middle = (2 * Math.PI * index) / count;
        const half = Math.PI / count;
        const at = (angle: number, radius: number): string => `${(Math.cos(angle) * radius).toFixed(2)},${(-Math.sin(angle) * radius).toFixed(2)}`;
        return `M${at(middle - half, inner)}L${at(middle - half, outer)}L${at(middle + half, outer)}L${at(middle + half, inner)}Z`;
      }),
    [count, inner, outer],
  );
  return (
    <g transform={`translate(${x} ${-y})`}>
      <g opacity="0.85" fill="currentColor" stroke="currentColor" strokeWidth="0.15">
        {segments.map((outline, index) => {
          cividisInto(ring[index]! / scaleKPa, colors.current, 0);
          const [red, green, blue] = colors.current;
          const color = `rgb(${Math.round(red! * 255)} ${Math.round(green! * 255)} ${Math.round(blue! * 255)})`;
          return <path key={index} d={outline} color={color} />;
        })}
      </g>
      <circle r={inner} fill="none" stroke={palette.brass} strokeWidth="0.7" />
      <circle r={outer} fill="none" stroke={palette.brass} strokeWidth="0.7" />
    </g>
  );
}
