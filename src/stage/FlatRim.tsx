/**
 * What moves in the flat drawing: lips, rim, pressure and the horn's axis. They are written as the live frame changes, without rendering;
 * outlines that only turn are drawn once.
 */
import { memo, useMemo, useRef } from 'react';
import type { LiveFrame, LiveSource, RimPose } from '../core/analysis';
import type { Arch } from '../core/arch';
import { lipSection } from '../core/lipSection';
import { RING_AZIMUTHS } from '../core/load';
import { contourHeight } from '../core/rim';
import { cividisStep } from './cividis';
import type { StagePalette } from './palette';
import type { StageProps } from './props';
import { instrumentProfiles } from './rimShape';
import { closedPath } from './sectionShape';
import { useLiveElement } from './useLiveElement';

interface LiveProps {
  readonly live: LiveSource;
  readonly palette: StagePalette;
}

type LipsProps = LiveProps & Pick<StageProps, 'lips' | 'rim' | 'lipLineMm'> & { readonly arch: Arch };

export const FlatLips = memo(function FlatLips({ arch, lips, rim, live, lipLineMm, palette }: LipsProps) {
  const group = useLiveElement<SVGGElement>(live, ({ children: [upper, lower] }, { shown }) => {
    const parts = lipSection(arch, lips, rim, shown, lipLineMm);
    upper?.setAttribute('d', closedPath(parts.upper));
    lower?.setAttribute('d', closedPath(parts.lower));
  });
  return (
    <g ref={group} stroke={palette.sectionLine} strokeWidth="0.25" fillOpacity="0.85">
      <path fill={palette.lipCut} />
      <path fill={palette.lipCut} />
    </g>
  );
});

/** The drawing's plane: across it runs y (cut from the side) or x (cut from above); along it runs z, forward, to the right. */
export type CutPlane = 'side' | 'above';
const ACROSS = { side: 1, above: 0 } as const;

interface CutProps extends LiveProps {
  readonly plane: CutPlane;
}

export const RimCut = memo(function RimCut({ rim, live, plane, palette }: CutProps & Pick<StageProps, 'rim'>) {
  const outlines = useMemo(() => {
    const profiles = instrumentProfiles(rim, (radius) => contourHeight(rim, radius));
    return ([1, -1] as const).map((sign) =>
      [profiles.body, profiles.rim].map((profile) => closedPath(profile.map(([radius, along]) => [radius * sign, along] as const))).join(''));
  }, [rim]);
  const across = ACROSS[plane];
  const group = useLiveElement<SVGGElement>(live, (element, { shown: { axis, rimCentreMm } }) => {
    const level = Math.hypot(axis[across], axis[2]) || 1;
    const degrees = (Math.atan2(axis[across], axis[2]) * 180) / Math.PI;
    element.setAttribute('transform', `translate(${rimCentreMm[2]} ${-rimCentreMm[across]}) rotate(${-degrees}) scale(${level} 1)`);
  });
  return (
    <g ref={group} fill={palette.brassCut} stroke={palette.brass} strokeWidth="0.3">
      {outlines.map((outline, side) => (
        <path key={side} d={outline} />
      ))}
    </g>
  );
});

/** Length of the horn's axis in a section, mm. */
const AXIS_MM = 62;

interface AxisProps {
  readonly live: LiveSource;
  readonly plane: CutPlane;
  /** Which of the frame's poses: as shown, or as held still. */
  readonly of: 'shown' | 'held';
  readonly color: string;
}

export const AxisCut = memo(function AxisCut({ live, plane, of, color }: AxisProps) {
  const across = ACROSS[plane];
  const line = useLiveElement<SVGLineElement>(live, (element, frame) => {
    const pose: RimPose = of === 'held' ? frame.held.pose : frame.shown;
    const { [across]: aside, 2: z } = pose.rimCentreMm;
    element.setAttribute('x1', String(z));
    element.setAttribute('y1', String(-aside));
    element.setAttribute('x2', String(z + pose.axis[2] * AXIS_MM));
    element.setAttribute('y2', String(-(aside + pose.axis[across] * AXIS_MM)));
  });
  return <line ref={line} stroke={color} strokeWidth="0.5" strokeDasharray={of === 'held' ? '2 1.4' : undefined} />;
});

interface FrontProps extends LiveProps, Pick<StageProps, 'rim' | 'horn'> {
  readonly scaleKPa: number;
}

export const RimFromFront = memo(function RimFromFront({ rim, live, horn, scaleKPa, palette }: FrontProps) {
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const drawn = useRef<string[]>([]);
  const segments = useMemo(
    () =>
      Array.from({ length: RING_AZIMUTHS }, (_, index) => {
        const middle = (2 * Math.PI * index) / RING_AZIMUTHS;
        const half = Math.PI / RING_AZIMUTHS;
        const at = (angle: number, radius: number): string => `${(Math.cos(angle) * radius).toFixed(2)},${(-Math.sin(angle) * radius).toFixed(2)}`;
        return `M${at(middle - half, inner)}L${at(middle - half, outer)}L${at(middle + half, outer)}L${at(middle + half, inner)}Z`;
      }),
    [inner, outer],
  );
  const place = useLiveElement<SVGGElement>(live, (element, { shown: { rimCentreMm } }) =>
    element.setAttribute('transform', `translate(${rimCentreMm[0]} ${-rimCentreMm[1]})`));
  const ring = useLiveElement<SVGGElement>(live, ({ children }, frame: LiveFrame) => {
    const pressures = (horn === 'held' ? frame.held : frame.follow).load.ringPressureKPa;
    for (let index = 0; index < RING_AZIMUTHS; index++) {
      const color = cividisStep(pressures[index]! / scaleKPa);
      if (drawn.current[index] === color) continue;
      drawn.current[index] = color;
      children[index]!.setAttribute('color', color);
    }
  });
  return (
    <g ref={place}>
      <g ref={ring} opacity="0.85" fill="currentColor" stroke="currentColor" strokeWidth="0.15">
        {segments.map((outline, index) => (
          <path key={index} d={outline} />
        ))}
      </g>
      <circle r={inner} fill="none" stroke={palette.brass} strokeWidth="0.7" />
      <circle r={outer} fill="none" stroke={palette.brass} strokeWidth="0.7" />
    </g>
  );
});
