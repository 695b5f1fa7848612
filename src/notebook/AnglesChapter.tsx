import type { ReactNode } from 'react';
import type { Analysis, HalfShares, HornAngles, ReadingAnalysis, RimLoad, ViewName } from '../core/analysis';
import { Caution } from './Cautions';
import { Choice } from './Choice';
import { type Moving, MovingText } from './Moving';
import { type Posture, momentWords } from '../print/instrumentWords';
import { formatFixed } from './numberText';
import { HORNS, VIEWS } from './shownWords';

export interface AnglesChapterProps {
  readonly analysis: Analysis | null;
  readonly result: ReadingAnalysis | undefined;
  /** The same, in step with a hand that drags the rim. */
  readonly moving: Moving<ReadingAnalysis>;
  readonly noteLabel: string;
  readonly posture: Posture;
  readonly view: ViewName;
  readonly horn: 'follow' | 'held';
  /** The angle charts, drawn elsewhere. */
  readonly charts: ReactNode;
  onView(view: ViewName): void;
  onHorn(horn: 'follow' | 'held'): void;
}

/** What the horn does along the path, what holding it still would cost, and how simpler pictures would answer. */
export function AnglesChapter(props: AnglesChapterProps): ReactNode {
  const { analysis, result, moving, noteLabel, posture, view, horn, charts } = props;
  return (
    <section className="chapter" id="angles" aria-labelledby="angles-heading">
      <h2 id="angles-heading">Angles</h2>
      {charts}
      {result === undefined || analysis === null ? (
        <p className="note">Nothing was computed for this note yet.</p>
      ) : (
        <>
          <div className="part">
            <h3>Follow, or hold still, at {noteLabel}</h3>
            <Choice legend="Shown in the picture" options={HORNS} value={horn} onChange={props.onHorn} />
            <LoadTable moving={moving} />
            <p>
              <MovingText of={moving} words={({ held }) => heldWords(posture, held.load)} />
            </p>
          </div>
          <div className="part">
            <h3>Four ways of seeing it, at {noteLabel}</h3>
            <ViewsTable moving={moving} view={view} onView={props.onView} />
          </div>
        </>
      )}
      <Caution about="geometry" />
      <Caution about="pain" />
    </section>
  );
}

interface LoadTableProps {
  readonly moving: Moving<ReadingAnalysis>;
}

const HALVES: readonly { readonly half: keyof HalfShares; readonly label: string }[] = [
  { half: 'upper', label: 'Force on the upper half' },
  { half: 'lower', label: 'on the lower half' },
  { half: 'right', label: 'on the player’s right' },
  { half: 'left', label: 'on the player’s left' },
];

function LoadTable({ moving }: LoadTableProps): ReactNode {
  const row = (label: string, value: (load: RimLoad) => string): ReactNode => (
    <tr key={label}>
      <th scope="row">{label}</th>
      <td className="figure predicted-ink">
        <MovingText of={moving} words={({ follow }) => value(follow.load)} />
      </td>
      <td className="figure held-ink">
        <MovingText of={moving} words={({ held }) => value(held.load)} />
      </td>
    </tr>
  );
  return (
    <table className="figures">
      <caption className="only-heard">The load round the rim, following and held still</caption>
      <thead>
        <tr>
          <th scope="col">At the rim</th>
          <th scope="col">follows</th>
          <th scope="col">held still</th>
        </tr>
      </thead>
      <tbody>
        {HALVES.map(({ half, label }) => row(label, (load) => percent(load.share[half])))}
        {row('Part of the rim in contact', (load) => percent(load.contactFraction))}
        {row('Highest pressure over the mean', (load) => `${load.peakOverMeanPressure.toFixed(1)}\u00a0×`)}
      </tbody>
    </table>
  );
}

function heldWords(posture: Posture, held: RimLoad): string {
  const moment = momentWords(posture, held.momentNmm);
  return moment === null
    ? 'Held still here, the hands have nothing to hold against; when the horn follows they never do.'
    : `Held still, the hands must ${moment}. When the horn follows, they have nothing to hold against.`;
}

const percent = (part: number): string => `${Math.round(part * 100)}\u00a0%`;

interface ViewsTableProps {
  readonly moving: Moving<ReadingAnalysis>;
  readonly view: ViewName;
  onView(view: ViewName): void;
}

function ViewsTable({ moving, view, onView }: ViewsTableProps): ReactNode {
  return (
    <table className="figures">
      <caption className="only-heard">Swing from home in four views; choose which one the picture shows</caption>
      <thead>
        <tr>
          <th scope="col">View</th>
          <th scope="col">up</th>
          <th scope="col">right</th>
        </tr>
      </thead>
      <tbody>
        {VIEWS.map((one) => (
          <tr key={one.view} aria-current={one.view === view ? 'true' : undefined}>
            <th scope="row">
              <label className="view-choice">
                <input type="radio" name="view" value={one.view} checked={one.view === view} onChange={() => onView(one.view)} />
                <span>
                  {one.name} <span className="view-choice__says">{one.says}</span>
                </span>
              </label>
            </th>
            {(['elevationDeg', 'lateralDeg'] as const).map((angle) => (
              <td key={angle} className="figure">
                <MovingText of={moving} words={(result) => `${formatFixed(changeIn(result, one.view)[angle], 1)}°`} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function changeIn(result: ReadingAnalysis, view: ViewName): HornAngles {
  return view === 'seated' ? result.changeFromHome : result.views[view].changeFromHome;
}
