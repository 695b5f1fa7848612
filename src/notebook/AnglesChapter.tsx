import type { ReactNode } from 'react';
import type { Analysis, HalfShares, HornAngles, ReadingAnalysis, RimLoad, ViewName } from '../core/analysis';
import { Caution } from './Cautions';
import { Choice } from './Choice';
import { type Moving, MovingText } from './Moving';
import { type Posture, momentWords } from '../print/instrumentWords';
import { sayNotebook } from '../words/notebook';
import { fixed } from '../words/numbers';
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
      <h2 id="angles-heading">{sayNotebook('anglesHeading')}</h2>
      {charts}
      {result === undefined || analysis === null ? (
        <p className="note">{sayNotebook('nothingComputed')}</p>
      ) : (
        <>
          <div className="part">
            <h3>{sayNotebook('followAt', { note: noteLabel })}</h3>
            <Choice legend={sayNotebook('shownInPicture')} options={HORNS} value={horn} onChange={props.onHorn} />
            <LoadTable moving={moving} />
            <p>
              <MovingText of={moving} words={({ held }) => heldWords(posture, held.load)} />
            </p>
          </div>
          <div className="part">
            <h3>{sayNotebook('viewsAt', { note: noteLabel })}</h3>
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

const HALVES = [
  { half: 'upper', label: 'forceUpper' },
  { half: 'lower', label: 'forceLower' },
  { half: 'right', label: 'forceRight' },
  { half: 'left', label: 'forceLeft' },
] as const satisfies readonly { readonly half: keyof HalfShares; readonly label: string }[];

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
      <caption className="only-heard">{sayNotebook('loadCaption')}</caption>
      <thead>
        <tr>
          <th scope="col">{sayNotebook('atRim')}</th>
          <th scope="col">{sayNotebook('follows')}</th>
          <th scope="col">{sayNotebook('held')}</th>
        </tr>
      </thead>
      <tbody>
        {HALVES.map(({ half, label }) => row(sayNotebook(label), (load) => percent(load.share[half])))}
        {row(sayNotebook('contact'), (load) => percent(load.contactFraction))}
        {row(sayNotebook('peak'), (load) => `${fixed(load.peakOverMeanPressure, 1)}\u00a0×`)}
      </tbody>
    </table>
  );
}

function heldWords(posture: Posture, held: RimLoad): string {
  const moment = momentWords(posture, held.momentNmm);
  return moment === null ? sayNotebook('handsNothing') : sayNotebook('handsMust', { moment });
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
      <caption className="only-heard">{sayNotebook('viewsCaption')}</caption>
      <thead>
        <tr>
          <th scope="col">{sayNotebook('view')}</th>
          <th scope="col">{sayNotebook('upHead')}</th>
          <th scope="col">{sayNotebook('rightHead')}</th>
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
