import type { ReactNode } from 'react';
import type { Findings } from '../../core/findings/findings';
import { FollowLegend, FollowPlot } from './FollowPlot';
import { Answer, CannotTellYet, Numbers, RestsOn, SaysPart } from './SaysPart';
import { type SwingAxis, followFitWords, followWords, offsetWords, ratioMeaning } from './followSaid';
import type { PartStyle } from './props';

type FollowPartProps = Pick<PartStyle, 'name' | 'posture'> & { readonly follow: Findings['follow'] };

/** How far the horn, or on the lap the head, does what the arch asks for. */
export function FollowPart({ follow, name, posture }: FollowPartProps): ReactNode {
  const axes = AXES.map((axis) => ({ axis, finding: follow[axis] }));
  return (
    <SaysPart id="says-follow" heading={posture === 'lap' ? 'Does the head follow' : 'Does the horn follow'}>
      {axes.map(({ axis, finding }) =>
        finding.kind === 'told' ? (
          <div key={axis}>
            <Answer words={followWords(finding, axis, posture)} />
            <RestsOn evidence={finding.evidence} words={followFitWords(finding)} />
          </div>
        ) : (
          <CannotTellYet key={axis} finding={finding} name={name} about={ABOUT[axis]} />
        ))}
      <p className="note">{ratioMeaning(posture)}</p>
      {axes.some(({ finding }) => finding.kind === 'told') && <FollowLegend />}
      <div className="says-pictures">
        {axes.map(({ axis, finding }) =>
          finding.kind === 'told' ? (
            <FollowPlot key={axis} follow={finding} axis={axis} posture={posture} name={name} label={followWords(finding, axis, posture)} />
          ) : null)}
      </div>
      <Numbers summary="What is taken for granted">
        {axes.map(({ axis, finding }) => (finding.kind === 'told' ? <p key={axis} className="note">{offsetWords(finding, axis)}</p> : null))}
        <p className="note">
          The predicted swing is the model’s own at each note, for the chosen arch, rim and lips; both it and the measured one err, and the line is
          fitted with both errors. Up and down nothing is said where the jaw was not seen: half a millimetre of jaw is about a degree of horn.
        </p>
      </Numbers>
    </SaysPart>
  );
}

/** Sideways first: it hangs least on the jaw. */
const AXES: readonly SwingAxis[] = ['lateral', 'elevation'];
const ABOUT: Readonly<Record<SwingAxis, string>> = { elevation: 'Up and down', lateral: 'Sideways' };
