import type { ReactNode } from 'react';
import type { AirstreamFinding, Finding } from '../../core/findings/findings';
import { saySays } from '../../words/says';
import { AirStrip } from './AirStrip';
import { Answer, CannotTellYet, RestsOn, SaysPart } from './SaysPart';
import { airDetailWords, airWords, nearHalfWords } from './airSaid';
import type { PartStyle } from './props';

/** Which way the air was seen to go, where it changes side, and where the placement is near half and half. */
export function AirPart({ air, name }: Pick<PartStyle, 'name'> & { readonly air: Finding<AirstreamFinding> }): ReactNode {
  return (
    <SaysPart id="says-air" heading={saySays('airHeading')}>
      {air.kind === 'told' ? <Told air={air} name={name} /> : <CannotTellYet finding={air} name={name} />}
    </SaysPart>
  );
}

function Told({ air, name }: Pick<PartStyle, 'name'> & { readonly air: AirstreamFinding & { readonly evidence: { readonly notes: number; readonly readings: number } } }): ReactNode {
  const nearHalf = nearHalfWords(air, name);
  const seen = air.seen.some(({ down, up, unsure }) => down + up + unsure > 0);
  return (
    <>
      <Answer words={airWords(air, name)} />
      <RestsOn evidence={air.evidence} words={airDetailWords(air, name)} />
      {seen && (
        <div className="says-pictures">
          <AirStrip air={air} name={name} label={airWords(air, name)} />
        </div>
      )}
      {nearHalf !== null && <p className="note">{nearHalf}</p>}
    </>
  );
}
