/** What the band at the chosen note is, and what it is expected to be after each measure: a list whose rows are bars. */
import { type ReactNode, useState } from 'react';
import type { NoteBudget } from '../../core/ownArch/budget';
import { sayOwnArch } from '../../words/ownArch';
import { Choice } from '../Choice';
import { type Way, bandWords, bestWords, labelWords, othersWords, ranked, wayOptions } from './words';

export function BudgetChart({ budget }: { readonly budget: NoteBudget }): ReactNode {
  const { now } = budget;
  const [chosen, setWay] = useState<Way | null>(null);
  const way = chosen ?? (now.elevationSdDeg >= now.lateralSdDeg ? 'elevationSdDeg' : 'lateralSdDeg');
  const { worth, others } = ranked(budget, way);
  const rows = [
    { words: sayOwnArch('now'), sdDeg: now[way], isNow: true },
    ...worth.map(({ what, after }) => ({ words: labelWords(what), sdDeg: after[way], isNow: false })),
  ];
  const widest = Math.max(...rows.map(({ sdDeg }) => sdDeg));
  return (
    <>
      <Choice<Way> legend={sayOwnArch('way')} options={wayOptions()} value={way} onChange={setWay} />
      <p>{bestWords(budget, way)}</p>
      <ul className="own-arch__bars" aria-label={sayOwnArch('bars')}>
        {rows.map(({ words, sdDeg, isNow }) => (
          <li key={words} data-now={isNow}>
            <span className="own-arch__bar-name">{words}</span>
            <span className="own-arch__bar" aria-hidden="true">
              <span style={{ inlineSize: `${(100 * sdDeg) / widest}%` }} />
            </span>
            <span className="own-arch__bar-number">{bandWords(sdDeg, 2)}</span>
          </li>
        ))}
      </ul>
      {others.length === 0 ? null : <p className="note">{othersWords(others)}</p>}
    </>
  );
}
