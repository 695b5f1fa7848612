import type { ReactNode } from 'react';
import type { Finding, LocalShape, Matrix2, OwnShape } from '../../core/findings/findings';
import { saySays } from '../../words/says';
import { formatFixed } from '../numberText';
import { OwnShapePlot } from './OwnShapePlot';
import { Answer, CannotTellYet, Numbers, RestsOn, SaysPart } from './SaysPart';
import type { OwnShapeState, PartStyle } from './props';
import { bandWords, failedWords, fitWords, localFitWords, localWords, predictionWords, radiusWords, residualWords } from './shapeSaid';

export interface OwnShapePartProps extends Pick<PartStyle, 'name' | 'posture'> {
  readonly local: Finding<LocalShape>;
  readonly own: OwnShapeState;
  readonly onOwnShape: (() => void) | null;
  onCancelOwnShape(): void;
}

/** The swing a millimetre brings, by this player's own readings; then, when asked for, the arch as these readings bear it out. */
export function OwnShapePart(props: OwnShapePartProps): ReactNode {
  const { local, own, name, posture } = props;
  return (
    <SaysPart id="says-shape" heading={saySays('shapeHeading')}>
      {local.kind === 'told' ? (
        <>
          <Answer words={localWords(local, posture)} />
          <RestsOn evidence={local.evidence} words={localFitWords(local)} />
          {local.degPerMm !== null && local.covariance !== null && (
            <LocalNumbers degPerMm={local.degPerMm} covariance={local.covariance} modelDegPerMm={local.modelDegPerMm} />
          )}
        </>
      ) : (
        <CannotTellYet finding={local} name={name} />
      )}
      {local.kind === 'told' && props.onOwnShape !== null && <OwnShapeWork {...props} onOwnShape={props.onOwnShape} />}
      {/* Heard by those who do not see that the bar is gone. */}
      <p className="only-heard" role="status">
        {own.kind === 'done' && own.own.kind === 'told' ? saySays('archFitted') : ''}
      </p>
      {own.kind === 'done' && own.own.kind === 'cannot-tell' && <CannotTellYet finding={own.own} name={name} />}
      {own.kind === 'done' && own.own.kind === 'failed' && <p className="says-answer says-answer--waiting">{failedWords(own.own)}</p>}
      {own.kind === 'done' && own.own.kind === 'told' && <ToldShape own={own.own} evidence={own.own.evidence} name={name} posture={posture} />}
    </SaysPart>
  );
}

/** Asked for, worked at, or to be asked for anew. */
function OwnShapeWork({ own, onOwnShape, onCancelOwnShape }: OwnShapePartProps & { readonly onOwnShape: () => void }): ReactNode {
  if (own.kind === 'working') {
    const percent = Math.round(own.part * 100);
    return (
      <div className="says-work">
        <progress max={100} value={percent} aria-label={saySays('workingOut')} />
        <span>{`${percent}\u00a0%`}</span>
        <button type="button" onClick={onCancelOwnShape}>
          {saySays('cancel')}
        </button>
      </div>
    );
  }
  const again = own.kind === 'done';
  if (again && !own.behind) return null;
  return (
    <div className="says-work">
      {own.kind === 'failed' && <p className="note">{own.words}</p>}
      {again && <p className="note">{saySays('changedSince')}</p>}
      <button type="button" onClick={onOwnShape}>
        {saySays(again ? 'workOutAgain' : 'fitArch')}
      </button>
    </div>
  );
}

function ToldShape({ own, evidence, name, posture }: Pick<PartStyle, 'name' | 'posture'> & {
  readonly own: OwnShape;
  readonly evidence: { readonly notes: number; readonly readings: number };
}): ReactNode {
  return (
    <>
      {own.frontRadius !== null && <Answer words={radiusWords('front', own.frontRadius)} />}
      {own.verticalRadius !== null && <Answer words={radiusWords('vertical', own.verticalRadius)} />}
      <RestsOn evidence={evidence} words={`${residualWords(own)} ${fitWords(own)}`} />
      <div className="says-pictures">
        <OwnShapePlot own={own} posture={posture} name={name} label={predictionWords(own)} />
      </div>
      <p className="note">{`${predictionWords(own)} ${bandWords(own)}`}</p>
      <p className="note">{saySays('shapeGranted')}</p>
    </>
  );
}

const ROWS = ['elevation', 'lateral'] as const;
const COVARIANCE_NAMES = ['upByUp', 'upByRight', 'rightByUp', 'rightByRight'] as const;

/** The four numbers with their deviations, those of the model beside them, and how they err together. */
function LocalNumbers({ degPerMm, covariance, modelDegPerMm }: {
  readonly degPerMm: Matrix2;
  readonly covariance: readonly (readonly number[])[];
  readonly modelDegPerMm: Matrix2;
}): ReactNode {
  return (
    <Numbers summary={saySays('numbers')}>
      <table className="figures">
        <caption className="only-heard">{saySays('numbersCaption')}</caption>
        <thead>
          <tr>
            <th scope="col">{saySays('degPerMm')}</th>
            <th scope="col">{saySays('up')}</th>
            <th scope="col">{saySays('right')}</th>
            <th scope="col">{saySays('modelUp')}</th>
            <th scope="col">{saySays('right')}</th>
          </tr>
        </thead>
        <tbody>
          {ROWS.map((row, at) => (
            <tr key={row}>
              <th scope="row">{saySays(row)}</th>
              {([0, 1] as const).map((column) => (
                <td key={column} className="figure measured-ink">
                  {`${formatFixed(degPerMm[at as 0 | 1][column], 2)}\u00a0±\u00a0${formatFixed(Math.sqrt(covariance[2 * at + column]?.[2 * at + column] ?? 0), 2)}`}
                </td>
              ))}
              {([0, 1] as const).map((column) => (
                <td key={column} className="figure predicted-ink">
                  {formatFixed(modelDegPerMm[at as 0 | 1][column], 2)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="note">{saySays('numbersNote')}</p>
      <div className="cross-table" role="group" aria-label={saySays('covariance')} tabIndex={0}>
        <table className="figures">
          <caption>{saySays('covarianceCaption')}</caption>
          <thead>
            <tr>
              <td />
              {COVARIANCE_NAMES.map((one) => (
                <th key={one} scope="col">
                  {saySays(one)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {covariance.map((row, at) => (
              <tr key={COVARIANCE_NAMES[at]}>
                <th scope="row">{saySays(COVARIANCE_NAMES[at]!)}</th>
                {row.map((value, column) => (
                  <td key={column} className="figure">
                    {formatFixed(value, 4)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Numbers>
  );
}
