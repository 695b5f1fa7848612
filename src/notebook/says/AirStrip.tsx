/** Which way the air was seen to go at each note: an arrow down or up, both, or a question mark, low notes at the left. */
import type { ReactNode } from 'react';
import type { AirstreamFinding, AirstreamSeenAt } from '../../core/findings/findings';
import { useFrame } from '../../hooks/useFrame';
import { saySays } from '../../words/says';
import { pitchScale, toPixels } from '../chart/scale';
import { HiddenTable, NoteAxis, noteAxisPx } from './PlotFrame';
import { noteLabels } from './noteAxis';
import type { NoteNamer } from './saysWords';
import { plotBox } from './smallPlot';

export interface AirStripProps {
  readonly air: AirstreamFinding;
  readonly name: NoteNamer;
  readonly label: string;
}

const PLOT_HEIGHT_PX = 44;
const INSET_PX = 14;

export function AirStrip({ air, name, label }: AirStripProps): ReactNode {
  const [frame, { widthPx, zoom }] = useFrame<HTMLDivElement>();
  const box = plotBox({ widthPx, plotHeightPx: PLOT_HEIGHT_PX });
  const notes = byNote(air.seen);
  const x = pitchScale(notes.map(({ midi }) => midi), INSET_PX, box.rightPx - INSET_PX);
  const labels = noteLabels(notes, x, name);
  const [middleY, heightPx] = [(box.topPx + box.bottomPx) / 2, box.bottomPx + noteAxisPx(labels)];
  const changes = air.changes.flatMap(({ lowNote, highNote }) => {
    const [low, high] = [notes.find(({ note }) => note === lowNote), notes.find(({ note }) => note === highNote)];
    return low === undefined || high === undefined ? [] : [(toPixels(x, low.midi) + toPixels(x, high.midi)) / 2];
  });
  return (
    <figure className="says-picture" ref={frame}>
      {widthPx > 0 && (
        <div className="chart-area" style={{ height: heightPx, zoom }}>
          <svg width={widthPx} height={heightPx} role="img" aria-label={label}>
            <text className="chart-title" x={0} y={box.topPx - 12}>
              {saySays('airTitle')}
              <tspan className="chart-unit">{`, ${saySays('airUnit')}`}</tspan>
            </text>
            {changes.map((at) => (
              <line key={at} className="says-turn" x1={at} x2={at} y1={box.topPx} y2={box.bottomPx} />
            ))}
            {notes.map((one) => (
              <g key={one.midi} transform={`translate(${toPixels(x, one.midi)} ${middleY})`}>
                {one.down > 0 && <path className="says-air" d={arrow(one.up > 0 ? 4 : 0, 1)} />}
                {one.up > 0 && <path className="says-air" d={arrow(one.down > 0 ? -4 : 0, -1)} />}
                {one.down === 0 && one.up === 0 && (
                  <text className="chart-name" dy="0.35em" textAnchor="middle">
                    ?
                  </text>
                )}
              </g>
            ))}
            <NoteAxis layout={{ box }} labels={labels} />
          </svg>
        </div>
      )}
      <HiddenTable
        caption={saySays('airCaption')}
        head={[saySays('note'), saySays('airDown'), saySays('airUp'), saySays('airNotSure')]}
        rows={notes.map(({ note, down, up, unsure }) => [name(note), String(down), String(up), String(unsure)])}
      />
    </figure>
  );
}

/** Both ways of playing together: this is about the note. */
function byNote(seen: readonly AirstreamSeenAt[]): Pick<AirstreamSeenAt, 'note' | 'midi' | 'down' | 'up' | 'unsure'>[] {
  const notes = new Map<number, Pick<AirstreamSeenAt, 'note' | 'midi' | 'down' | 'up' | 'unsure'>>();
  for (const { note, midi, down, up, unsure } of seen) {
    const known = notes.get(midi);
    notes.set(midi, { note, midi, down: down + (known?.down ?? 0), up: up + (known?.up ?? 0), unsure: unsure + (known?.unsure ?? 0) });
  }
  return [...notes.values()].sort((a, b) => a.midi - b.midi);
}

/** A stroke 24 px long with a head, pointing down (1) or up (−1). */
function arrow(xPx: number, sign: 1 | -1): string {
  return `M${xPx} ${-12 * sign}V${12 * sign}M${xPx - 5} ${6 * sign}L${xPx} ${12 * sign}L${xPx + 5} ${6 * sign}`;
}
