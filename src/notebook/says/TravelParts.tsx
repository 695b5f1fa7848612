/** The three parts on the travel: its line, which way it goes, whether it turns back. Ascending and descending by themselves where they were seen apart. */
import { Fragment, type ReactNode } from 'react';
import type { LineOfTravel, TravelFindings, TurnBack } from '../../core/findings/findings';
import type { Said, WaySaid } from '../../core/findings/said';
import { saySays } from '../../words/says';
import { AlongPlot } from './AlongPlot';
import { Answer, CannotTellYet, Numbers, RestsOn, SaysPart } from './SaysPart';
import { TravelFace } from './TravelFace';
import type { PartStyle } from './props';
import { lineDetailWords, lineWords, takesWords, turnChanceWords, turnWords, wayWords } from './travelSaid';

export interface TravelPartProps extends PartStyle {
  readonly said: Said;
}

export function LinePart({ said, name, mirror }: TravelPartProps): ReactNode {
  return (
    <SaysPart id="says-line" heading={saySays('lineHeading')}>
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
                label={travel.line.kind === 'told' ? lineWords(travel.line, travel.direction) : saySays('noLineYet')}
              />
            </div>
          )}
        </>
      ))}
      <Numbers summary={saySays('granted')}>
        <p className="note">{saySays('lineGranted')}</p>
      </Numbers>
    </SaysPart>
  );
}

export function WayPart({ said, name }: TravelPartProps): ReactNode {
  return (
    <SaysPart id="says-way" heading={saySays('wayHeading')}>
      {eachWay(said, (travel) =>
        travel.way.kind === 'told' ? (
          <>
            <Answer words={`${ofWay(travel)}${wayWords(travel.way, toldLine(travel))}`} />
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
    <SaysPart id="says-turn" heading={saySays('turnHeading')}>
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
                label={saySays('alongLabel', { turn: travel.turnBack.kind === 'told' ? turnWords(travel.turnBack, name, travel.direction) : '' })}
              />
            </div>
          )}
          {travel.turnBack.kind === 'told' && <p className="note">{takesWords(travel.turnBack)}</p>}
        </>
      ))}
      <p className="note">{saySays('turnPractice')}</p>
    </SaysPart>
  );
}

function eachWay(said: Said, part: (travel: TravelFindings, way: WaySaid) => ReactNode): ReactNode {
  return said.findings.travel.map((travel, index) => (
    <Fragment key={travel.direction}>{part(travel, said.ways[index] ?? { notes: [], along: null })}</Fragment>
  ));
}

const about = ({ direction }: TravelFindings): string | undefined =>
  direction === null ? undefined : saySays(direction === 'up' ? 'ascending' : 'descending');

/** Before an answer that does not say itself which way it is about. */
const ofWay = ({ direction }: TravelFindings): string => (direction === null ? '' : `${saySays('wayReadings', { direction })} `);

const toldLine = ({ line }: TravelFindings): LineOfTravel | null => (line.kind === 'told' ? line : null);

const toldTurn = ({ turnBack }: TravelFindings): TurnBack | null => (turnBack.kind === 'told' ? turnBack : null);
