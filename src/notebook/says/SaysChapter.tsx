import { type ReactNode, memo, useCallback } from 'react';
import { Caution } from '../Cautions';
import '../chart/chart.css';
import { noteAsShown } from '../noteNames';
import { AirPart } from './AirPart';
import { CrossPart } from './CrossPart';
import { FollowPart } from './FollowPart';
import { OwnShapePart } from './OwnShapePart';
import { ProgressPlots } from './ProgressPlots';
import { SaysPart } from './SaysPart';
import { LinePart, TurnPart, WayPart } from './TravelParts';
import type { SaysChapterProps } from './props';
import './says.css';
import { saySays } from '../../words/says';

/** What the readings say of this player, each thing with its evidence and how sure it is, or what is missing. */
export const SaysChapter = memo(function SaysChapter(props: SaysChapterProps): ReactNode {
  const { said, failure, behind, own, progress, entry, posture } = props;
  const name = useCallback((note: string) => noteAsShown(note, entry), [entry]);
  const style = { name, posture, mirror: entry.sideways === 'mirror' };
  return (
    <section className="chapter" id="says" aria-labelledby="says-heading">
      <h2 id="says-heading">{saySays('heading')}</h2>
      <p className="note">
        {saySays('explained')}
        {behind && said !== null ? ` ${saySays('behind')}` : ''}
      </p>
      {said === null ? (
        <p className="says-answer says-answer--waiting">{failure ?? saySays('working')}</p>
      ) : (
        <>
          <LinePart said={said} {...style} />
          <WayPart said={said} {...style} />
          <TurnPart said={said} {...style} />
          <AirPart air={said.findings.airstream} name={name} />
          <FollowPart follow={said.findings.follow} name={name} posture={posture} />
          <OwnShapePart
            local={said.local}
            own={own}
            name={name}
            posture={posture}
            onOwnShape={props.onOwnShape}
            onCancelOwnShape={props.onCancelOwnShape}
          />
        </>
      )}
      {progress !== null && (
        <SaysPart id="says-progress" heading={saySays('progressHeading')}>
          <ProgressPlots points={progress} />
        </SaysPart>
      )}
      <CrossPart cross={props.cross} onCross={props.onCross} onCancelCross={props.onCancelCross} />
      <Caution about="geometry" />
      <Caution about="placement" />
    </section>
  );
});
