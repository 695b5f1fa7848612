/** The forms fitted to a print: how far the points lie off each, the better one offered; the chosen one drawn; both sides compared; taken as the player's arch. */
import type { ReactNode } from 'react';
import { NINETY_FIVE_PERCENT } from '../../../core/bands';
import { type PrintFit, asymmetryOf } from '../../../core/ownArch/fitPrint';
import { CURVE_OUT, buildCurve } from '../../../core/planarForm';
import type { ArchFamily, BitePrintSpec } from '../../../core/specs';
import { sayOwnArch } from '../../../words/ownArch';
import { formatFixed } from '../../numberText';
import type { PrintForms as Forms } from '../props';
import { canineWords, isUneven, midlineWords, sidesWords } from './printWords';

/** A form as it is chosen: of a family, or free. */
export type FormChoice = ArchFamily | 'free';

export interface PrintFormsProps {
  readonly print: BitePrintSpec;
  readonly forms: Forms;
  readonly chosen: FormChoice;
  /** What was worked out is of marks as they were a moment ago. */
  readonly behind: boolean;
  onChoose(form: FormChoice): void;
  onAccept(): void;
}

/** The free form is offered where the sides differ by more than chance, or where it is the better one for all its numbers. */
export const isFreeOffered = (print: BitePrintSpec, { fits, free }: Forms): boolean =>
  free !== null && (free.aicc < fits[0]!.aicc || isUneven(asymmetryOf(print, fits[0]!)));

export function PrintForms({ print, forms, chosen, behind, onChoose, onAccept }: PrintFormsProps): ReactNode {
  const { fits, free } = forms;
  const offered = isFreeOffered(print, forms);
  const shown = (chosen === 'free' ? null : fits.find(({ family }) => family === chosen)) ?? fits[0]!;
  const sides = asymmetryOf(print, shown);
  const canines = canineWords(print);
  const least = Math.min(fits[0]!.aicc, ...(offered ? [free!.aicc] : []));
  const rows = [
    ...fits.map(({ family, rmsMm, aicc, frontRadiusMm, frontRadiusSdMm }) => ({
      id: family,
      rmsMm,
      aicc,
      radius: sayOwnArch('printMmBand', { value: formatFixed(frontRadiusMm, 1), band: formatFixed(NINETY_FIVE_PERCENT * frontRadiusSdMm, 1) }),
    })),
    ...(offered ? [{ id: 'free' as const, rmsMm: free!.rmsMm, aicc: free!.aicc, radius: '–' }] : []),
  ];
  return (
    <div className="print-forms" data-behind={behind}>
      <table>
        <caption>{sayOwnArch('printForms')}</caption>
        <thead>
          <tr>
            <th scope="col">{sayOwnArch('printForm')}</th>
            <th scope="col">{sayOwnArch('printRms')}</th>
            <th scope="col">{sayOwnArch('printRadius')}</th>
            <th scope="col">{sayOwnArch('printWorse')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ id, rmsMm, aicc, radius }) => (
            <tr key={id}>
              <th scope="row">
                <label className="tick">
                  <input type="radio" name="print-form" checked={id === chosen} onChange={() => onChoose(id)} />
                  {sayOwnArch(id)}
                </label>
              </th>
              <td>{sayOwnArch('printMm', { value: formatFixed(rmsMm, 2) })}</td>
              <td>{radius}</td>
              <td>{aicc === least ? sayOwnArch('printBest') : formatFixed(aicc - least, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="note">{sayOwnArch('printFormsHint')}</p>
      <PrintDrawing drawn={chosen === 'free' && free !== null ? free : shown} name={sayOwnArch(chosen)} />
      <p>{sidesWords(sides, chosen === 'free')}</p>
      {sides.midline === null ? null : <p>{midlineWords(sides.midline)}</p>}
      {canines === null ? null : <p>{canines}</p>}
      <div className="button-row">
        <button type="button" onClick={onAccept} disabled={behind}>
          {sayOwnArch('printAccept')}
        </button>
      </div>
    </div>
  );
}

/** How much longer than it is a point's distance is drawn. */
const TIMES = 10;
const MARGIN_MM = 5;
const CURVE_POINTS = 80;

/** As the upper teeth are drawn from below: the front above, the player's right at the left. */
export function PrintDrawing({ drawn, name }: { readonly drawn: DrawnForm; readonly name: string }): ReactNode {
  const { places } = drawn;
  const curve = curveOf(drawn);
  const xs = [...places, ...curve].map(({ xMm }) => xMm);
  const zs = [...places, ...curve].map(({ zMm }) => -zMm);
  const [left, top] = [Math.min(...xs) - MARGIN_MM, Math.min(...zs) - MARGIN_MM];
  const [width, height] = [Math.max(...xs) + MARGIN_MM - left, Math.max(...zs) + MARGIN_MM - top];
  const farthest = Math.max(...places.map(({ offMm }) => Math.abs(offMm)));
  return (
    <figure className="own-arch__figure">
      <svg
        viewBox={`${left} ${top} ${width} ${height}`}
        role="img"
        aria-label={sayOwnArch('printDrawingLabel', { count: places.length, form: name, mm: formatFixed(farthest, 1) })}
      >
        <polyline className="print-form" points={curve.map(({ xMm, zMm }) => `${xMm},${-zMm}`).join(' ')} />
        {places.map(({ xMm, zMm, offMm }, at) => {
          const out = outward(curve, xMm, zMm);
          return (
            <g key={at}>
              <line className="print-off" x1={xMm} y1={-zMm} x2={xMm + TIMES * offMm * out.x} y2={-(zMm + TIMES * offMm * out.z)} />
              <circle className="print-point" cx={xMm} cy={-zMm} r={0.7} />
            </g>
          );
        })}
        <text className="own-arch__fdi" x={Math.min(...xs)} y={Math.max(...zs) + MARGIN_MM - 0.8} textAnchor="middle">
          {sayOwnArch('right')}
        </text>
        <text className="own-arch__fdi" x={Math.max(...xs)} y={Math.max(...zs) + MARGIN_MM - 0.8} textAnchor="middle">
          {sayOwnArch('left')}
        </text>
      </svg>
      <figcaption>{sayOwnArch('printDrawing')}</figcaption>
    </figure>
  );
}

/** A form with the points about it. */
export type DrawnForm = Pick<PrintFit, 'form' | 'places'>;

interface Drawn {
  readonly xMm: number;
  readonly zMm: number;
}

/** The form as far as the points go, mm. */
export function curveOf({ form, places }: DrawnForm): Drawn[] {
  const curve = buildCurve(form);
  const out = new Float64Array(CURVE_OUT);
  const deepest = Math.min(...places.map(({ zMm }) => zMm));
  const at = (u: number): Drawn => {
    curve.exact(u, out);
    return { xMm: out[0]!, zMm: out[1]! };
  };
  // A spline is walked from its one end, all others from their front.
  const front = form.kind === 'points' ? (curve.low + curve.high) / 2 : 0;
  // Each half to where it passes the deepest point, by halves.
  const endOf = (end: number): number => {
    let [near, far] = [front, end];
    if (at(far).zMm >= deepest) return far;
    for (let step = 0; step < 40; step++) {
      const middle = (near + far) / 2;
      if (at(middle).zMm >= deepest) near = middle;
      else far = middle;
    }
    return near;
  };
  const [low, high] = [endOf(curve.low), endOf(curve.high)];
  return Array.from({ length: CURVE_POINTS + 1 }, (_, step) => at(low + ((high - low) * step) / CURVE_POINTS));
}

/** Unit normal of the drawn form where it is nearest. */
function outward(curve: readonly Drawn[], xMm: number, zMm: number): { readonly x: number; readonly z: number } {
  let best = 1;
  for (let at = 1; at < curve.length; at++) {
    const apart = (one: Drawn): number => Math.hypot(one.xMm - xMm, one.zMm - zMm);
    if (apart(curve[at]!) < apart(curve[best]!)) best = at;
  }
  const [dx, dz] = [curve[best]!.xMm - curve[best - 1]!.xMm, curve[best]!.zMm - curve[best - 1]!.zMm];
  const size = Math.hypot(dx, dz) || 1;
  return { x: -dz / size, z: dx / size };
}
