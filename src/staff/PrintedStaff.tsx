/** The exercise on paper: the notes engraved, and under each its name and the predicted swing. Drawn once, not played along. */
import { useEffect, useMemo, useRef, type ReactNode } from 'react';
import type { HornAngles } from '../core/analysis';
import { STAFF_SPACE_PX, signedDegrees } from './layout';
import { TEXT_ROW_MM, layoutPrintedStaff, type PrintedStaffLayout } from './printLayout';
import type { Engraver, StaffInstrument, StaffNote } from './props';
import { accidentals, printedLabel, staffPosition, writtenName, writtenNotes, type WrittenNote } from './spelling';
import { sayStaff } from '../words/staff';
import { loadEngraver, useEngraver, type EngraverState } from './useNotation';

export interface PrintedStaffProps {
  /** From left to right, as on the time line. */
  readonly notes: readonly StaffNote[];
  readonly instrument: StaffInstrument;
  /** Predicted swing from home, in the order of `notes`. */
  readonly swing: readonly (HornAngles | null)[];
  /** Headings of the two rows of swing, such as "up °". */
  readonly rowNames: readonly [elevation: string, lateral: string];
  readonly widthMm: number;
  readonly loadEngraver?: (() => Promise<Engraver>) | undefined;
}

export function PrintedStaff(props: PrintedStaffProps): ReactNode {
  const { notes, instrument, swing, rowNames, widthMm } = props;
  const [engraver, setEngraver] = useEngraver(props.loadEngraver ?? loadEngraver);
  const written = useMemo(() => writtenNotes(notes, instrument), [notes, instrument]);
  const layout = useMemo(
    () => layoutPrintedStaff(widthMm, written?.map((note) => staffPosition(note, instrument.clef)) ?? notes.map(() => 4), instrument.clef),
    [widthMm, written, notes, instrument.clef],
  );
  const music = useMusic(engraver, () => setEngraver('failed'), layout, written, instrument);
  const inWords = engraver === 'failed' || written === null;
  return (
    <>
      <svg
        className="printed-staff"
        width={`${layout.widthMm}mm`}
        height={`${layout.heightMm}mm`}
        viewBox={`0 0 ${layout.widthMm} ${layout.heightMm}`}
        role="img"
        aria-label={spoken(notes.slice(0, notes.length - layout.leftOut), swing, rowNames, instrument)}
        fontFamily={FONTS}
        fontSize={TEXT_MM}
        fill={INK}
      >
        <g ref={music} />
        {layout.systems.map((system) => (
          <g key={system.from} transform={`translate(0 ${system.topMm})`}>
            {system.noteXsMm.map((x, column) => {
              const at = system.from + column;
              const angles = swing[at] ?? null;
              return (
                <g key={at} textAnchor="middle">
                  <text x={x} y={layout.namesMm} fontWeight="600">{printedLabel(notes[at]!.label)}</text>
                  <text x={x} y={layout.rowsMm[0]} fill={PREDICTED}>{angles === null ? '–' : signedDegrees(angles.elevationDeg)}</text>
                  <text x={x} y={layout.rowsMm[1]} fill={PREDICTED}>{angles === null ? '–' : signedDegrees(angles.lateralDeg)}</text>
                </g>
              );
            })}
            {notes.length > 0 && rowNames.map((name, row) => <text key={name} x="0" y={layout.rowsMm[row]} fill={MUTED}>{name}</text>)}
          </g>
        ))}
      </svg>
      {inWords && <p className="printed-staff-message">{sayStaff(written ? 'notLoaded' : 'notWritable')}</p>}
      {layout.leftOut > 0 && (
        <p className="printed-staff-message">
          {sayStaff('leftOut', { count: layout.leftOut, room: notes.length - layout.leftOut })}
        </p>
      )}
    </>
  );
}

/** 9 pt. */
const TEXT_MM = TEXT_ROW_MM * 0.745;
const FONTS = "'Rimpath Signs', 'Source Sans 3', 'Helvetica Neue', Arial, sans-serif";
const INK = '#1D2330';
const MUTED = '#5B6472';
const PREDICTED = '#00695C';

/** What the engraver sets on its own SVG element and every sign inherits. */
const CARRIED = ['font-family', 'font-weight', 'font-style', 'stroke-width'] as const;

/** Engraves beside the page and takes the drawing over, scaled to the paper. */
function useMusic(
  engraver: EngraverState,
  onFault: () => void,
  layout: PrintedStaffLayout,
  written: readonly WrittenNote[] | null,
  { clef }: StaffInstrument,
) {
  const target = useRef<SVGGElement>(null);
  const fault = useRef(onFault);
  fault.current = onFault;
  useEffect(() => {
    const group = target.current;
    if (group === null) return;
    group.replaceChildren();
    if (typeof engraver === 'string' || written === null) return;
    const mmPerPx = layout.spaceMm / STAFF_SPACE_PX;
    const signs = accidentals(written);
    try {
      for (const system of layout.systems) {
        const host = document.createElement('div');
        engraver.engrave(host, {
          clef,
          widthPx: layout.widthMm / mmPerPx,
          heightPx: layout.namesMm / mmPerPx,
          staveLeftPx: 0.5 / mmPerPx,
          staveTopPx: layout.staveTopMm / mmPerPx,
          notes: system.noteXsMm.map((x, column) => {
            const { letter, octave } = written[system.from + column]!;
            return { xPx: x / mmPerPx, letter, octave, accidental: signs[system.from + column] ?? null };
          }),
        });
        const drawn = document.createElementNS('http://www.w3.org/2000/svg', 'g');
        drawn.setAttribute('transform', `translate(0 ${system.topMm}) scale(${mmPerPx})`);
        const engraved = host.firstElementChild;
        for (const name of CARRIED) {
          const value = engraved?.getAttribute(name);
          if (value != null) drawn.setAttribute(name, value);
        }
        drawn.append(...(engraved?.childNodes ?? []));
        inPlainInk(drawn);
        group.append(drawn);
      }
    } catch {
      fault.current();
    }
  }, [engraver, layout, written, clef]);
  return target;
}

/** Only what every drawing program reads: no colours by reference, and none of the engraver's unseen boxes for the pointer. */
function inPlainInk(drawn: SVGGElement): void {
  for (const box of drawn.querySelectorAll('rect[opacity="0"]')) box.remove();
  for (const element of drawn.querySelectorAll('*')) {
    for (const name of ['fill', 'stroke']) if (element.getAttribute(name)?.includes('currentColor') === true) element.setAttribute(name, INK);
  }
}

function spoken(
  notes: readonly StaffNote[],
  swing: readonly (HornAngles | null)[],
  [elevation, lateral]: readonly [string, string],
  instrument: StaffInstrument,
): string {
  const written = writtenNotes(notes, instrument);
  const each = notes.map((note, index) => {
    const angles = swing[index] ?? null;
    const name = printedLabel(note.label);
    const asWritten = written?.[index] ? writtenName(written[index]) : name;
    const named = asWritten === name ? name : sayStaff('writtenAs', { note: name, written: asWritten });
    return angles === null ? named : sayStaff('swingOf', { note: named, elevation, lateral, up: signedDegrees(angles.elevationDeg), right: signedDegrees(angles.lateralDeg) });
  });
  return sayStaff('described', { instrument: instrument.name, notes: each.join('; ') });
}
