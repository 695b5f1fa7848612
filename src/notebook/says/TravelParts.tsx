/** The three parts on the travel: its line, which way it goes, whether it turns back. Ascending and descending by themselves where they were seen apart. */
import { Fragment, type ReactNode } from 'react';
import type { LineOfTravel, TravelFindings, TurnBack } from '../../core/findings/findings';
import type { Said, WaySaid } from '../../core/findings/said';
import { AlongPlot } from './AlongPlot';
import { Answer, CannotTellYet, Numbers, RestsOn, SaysPart } from './SaysPart';
import { TravelFace } from './TravelFace';
import type { PartStyle } from './props';
import { TURN_BACK_PRACTICE, lineDetailWords, lineWords, takesWords, turnChanceWords, turnWords, wayWords } from './travelSaid';

export interface TravelPartProps extends PartStyle {
  readonly said: Said;
}

export function LinePart({ said, name, mirror }: TravelPartProps): ReactNode {
  return (
    <SaysPart id="says-line" heading="Line of travel">
      {eachWay(said, (travel, way) => (
        <>
          {travel.line.kind === 'told' ? (
            <>
              <Answer words={lineWords(travel.line, travel.direction)} />
              <RestsOn evidence={travel.line.evidence} words={lineDetailWords(travel.line)} />
            </>
          ) : (
            <CannotTellYet finding={travel.line} name={name} about={about(travel)} />
          )}
          {way.notes.length > 1 && (
            <div className="says-pictures">
              <TravelFace
                notes={way.notes}
                line={toldLine(travel)}
                mirror={mirror}
                name={name}
                label={travel.line.kind === 'told' ? lineWords(travel.line, travel.direction) : 'The notes’ places across the face; no line can be told yet.'}
              />
            </div>
          )}
        </>
      ))}
      <Numbers summary="What is taken for granted">
        <p className="note">
          Every reading errs by its own deviation, up and sideways alike: 1.5&nbsp;mm by eye, 1&nbsp;mm with a ruler, 0.3&nbsp;mm from video, unless
          another was typed. In brackets stands the range that holds the truth 19 times in 20. The picture shows the player’s own right.
        </p>
      </Numbers>
    </SaysPart>
  );
}

export function WayPart({ said, name }: TravelPartProps): ReactNode {
  return (
    <SaysPart id="says-way" heading="Which way">
      {eachWay(said, (travel) =>
        travel.way.kind === 'told' ? (
          <>
            <Answer words={`${about(travel) === undefined ? '' : `${about(travel)} readings. `}${wayWords(travel.way, toldLine(travel))}`} />
            <RestsOn evidence={travel.way.evidence} />
          </>
        ) : (
          <CannotTellYet finding={travel.way} name={name} about={about(travel)} />
        ))}
    </SaysPart>
  );
}

export function TurnPart({ said, name }: TravelPartProps): ReactNode {
  return (
    <SaysPart id="says-turn" heading="Turn-back">
      {eachWay(said, (travel, way) => (
        <>
          {travel.turnBack.kind === 'told' ? (
            <>
              <Answer words={turnWords(travel.turnBack, name, travel.direction)} />
              <RestsOn evidence={travel.turnBack.evidence} words={turnChanceWords(travel.turnBack, name)} />
            </>
          ) : (
            <CannotTellYet finding={travel.turnBack} name={name} about={about(travel)} />
          )}
          {way.along !== null && (
            <div className="says-pictures">
              <AlongPlot
                notes={way.along}
                turn={toldTurn(travel)}
                name={name}
                label={`Place along the line of travel against pitch. ${travel.turnBack.kind === 'told' ? turnWords(travel.turnBack, name, travel.direction) : ''}`}
              />
            </div>
          )}
          {travel.turnBack.kind === 'told' && <p className="note">{takesWords(travel.turnBack)}</p>}
        </>
      ))}
      <p className="note">{TURN_BACK_PRACTICE}</p>
    </SaysPart>
  );
}

function eachWay(said: Said, part: (travel: TravelFindings, way: WaySaid) => ReactNode): ReactNode {
  return said.findings.travel.map((travel, index) => (
    <Fragment key={travel.direction}>{part(travel, said.ways[index] ?? { notes: [], along: null })}</Fragment>
  ));
}

const about = ({ direction }: TravelFindings): string | undefined =>
  direction === null ? undefined : direction === 'up' ? 'Ascending' : 'Descending';

const toldLine = ({ line }: TravelFindings): LineOfTravel | null => (line.kind === 'told' ? line : null);

const toldTurn = ({ turnBack }: TravelFindings): TurnBack | null => (turnBack.kind === 'told' ? turnBack : null);
