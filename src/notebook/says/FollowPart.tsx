import type { ReactNode } from 'react';
import type { Findings } from '../../core/findings/findings';
import { saySays } from '../../words/says';
import { FollowLegend, FollowPlot } from './FollowPlot';
import { Answer, CannotTellYet, Numbers, RestsOn, SaysPart } from './SaysPart';
import { type SwingAxis, followFitWords, followWords, offsetWords, ratioMeaning } from './followSaid';
import type { PartStyle } from './props';

type FollowPartProps = Pick<PartStyle, 'name' | 'posture'> & { readonly follow: Findings['follow'] };

/** How far the horn, or on the lap the head, does what the arch asks for. */
export function FollowPart({ follow, name, posture }: FollowPartProps): ReactNode {
  const axes = AXES.map((axis) => ({ axis, finding: follow[axis] }));
  return (
    <SaysPart id="says-follow" heading={saySays('followHeading', { posture })}>
      {axes.map(({ axis, finding }) =>
        finding.kind === 'told' ? (
          <div key={axis}>
            <Answer words={followWords(finding, axis, posture)} />
            <RestsOn evidence={finding.evidence} words={followFitWords(finding)} />
          </div>
        ) : (
          <CannotTellYet key={axis} finding={finding} name={name} about={saySays(ABOUT[axis])} />
        ))}
      <p className="note">{ratioMeaning(posture)}</p>
      {axes.some(({ finding }) => finding.kind === 'told') && <FollowLegend />}
      <div className="says-pictures">
        {axes.map(({ axis, finding }) =>
          finding.kind === 'told' ? (
            <FollowPlot key={axis} follow={finding} axis={axis} posture={posture} name={name} label={followWords(finding, axis, posture)} />
          ) : null)}
      </div>
      <Numbers summary={saySays('granted')}>
        {axes.map(({ axis, finding }) => (finding.kind === 'told' ? <p key={axis} className="note">{offsetWords(finding, axis)}</p> : null))}
        <p className="note">{saySays('followGranted')}</p>
      </Numbers>
    </SaysPart>
  );
}

/** Sideways first: it hangs least on the jaw. */
const AXES: readonly SwingAxis[] = ['lateral', 'elevation'];
const ABOUT = { elevation: 'aboutUp', lateral: 'aboutSide' } as const satisfies Record<SwingAxis, string>;
