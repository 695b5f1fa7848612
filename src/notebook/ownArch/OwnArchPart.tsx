/** The player's own arch by ruler or caliper, or from a bite print: figures, numbers, how sure the angle is, and what would narrow it. */
import { type ReactNode, useState } from 'react';
import { midiOf } from '../../core/pitch';
import { type FittedArch, type FittedMeasure, fitArch } from '../../core/ownArch/fitArch';
import { measureKind, usualSdMm } from '../../core/ownArch/measures';
import { fitBehind } from '../../core/ownArch/ownArch';
import { scannedJaw } from '../../core/ownArch/scannedArch';
import type { ArchFamily, ArchMeasureName, ArchMeasureSpec } from '../../core/specs';
import { sayOwnArch } from '../../words/ownArch';
import { Choice, Picker } from '../Choice';
import { NumberField } from '../NumberField';
import { SHOWN_FROM_DEG } from '../margin';
import { BudgetChart } from './BudgetChart';
import { ArchFigure, SideFigure } from './MeasureFigures';
import { type Edited, NOTHING_MEASURED, measuredOf, withFamily, withMeasure } from './measureEdits';
import type { OwnArchProps } from './props';
import { PrintPart } from './print/PrintPart';
import { LETTERS, LOWER, SIDE, UPPER, contradictionWords, familyOptions, fittedWords, hintWords, labelWords, sureWords } from './words';
import './ownArch.css';

export function OwnArchPart(props: OwnArchProps): ReactNode {
  const { record, arches, onChange } = props;
  const { arch } = record;
  const [tool, setTool] = useState<ArchMeasureSpec['by']>('caliper');
  const [trouble, setTrouble] = useState(false);
  const [means, choose] = useState<Means>(() => ('measured' in arch && arch.measured?.prints !== undefined ? 'print' : 'ruler'));
  const [opened, setOpened] = useState(means === 'print');
  const setMeans = (next: Means): void => {
    choose(next);
    if (next === 'print') setOpened(true);
  };
  if ('single' in arch) return <p className="note">{sayOwnArch('single')}</p>;
  const measured = measuredOf(record);
  const [upper, lower] = [scannedJaw(arch, 'upper') !== null, scannedJaw(arch, 'lower') !== null];
  const fit = fitArch(arch.measured ?? NOTHING_MEASURED);
  const edit = (edited: Edited, key: string | null): void => {
    setTrouble(edited.kind === 'not-fitted');
    if (edited.kind === 'record') onChange((now) => ({ ...now, arch: edited.record.arch }), key);
  };
  const fields = (names: readonly ArchMeasureName[]): ReactNode =>
    names.map((name) => (
      <MeasureFields
        key={name}
        name={name}
        fitted={fit.kind === 'fitted' ? (fit.measures.find((one) => one.name === name) ?? null) : null}
        measured={measured.measures.find((one) => one.name === name) ?? null}
        onMeasure={(change, key) => edit(withMeasure(record, name, change, tool), key)}
        onSettle={props.onSettle}
      />
    ));
  return (
    <div className="own-arch">
      <Choice<Means>
        legend={sayOwnArch('means')}
        options={[{ value: 'ruler', label: sayOwnArch('byRuler') }, { value: 'print', label: sayOwnArch('byPrint') }]}
        value={means}
        onChange={setMeans}
      />
      {means === 'ruler' ? (
        <>
          <p className="note">{sayOwnArch('intro')}</p>
          <p className="caution">
            <strong>{sayOwnArch('cautionHead')}</strong> {sayOwnArch('caution')}
          </p>
          <Choice<ArchMeasureSpec['by']>
            legend={sayOwnArch('tool')}
            options={[{ value: 'caliper', label: sayOwnArch('caliper') }, { value: 'ruler', label: sayOwnArch('ruler') }]}
            value={tool}
            onChange={setTool}
          />
          <p className="note">{sayOwnArch('sides')}</p>
          <div className="own-arch__jaws">
            <div>
              <ArchFigure arch={arch} jaw="upper" />
              {fields(UPPER)}
            </div>
            <div>
              <ArchFigure arch={arch} jaw="lower" />
              {fields(LOWER)}
            </div>
            <div>
              <SideFigure />
              {fields(SIDE)}
            </div>
          </div>
        </>
      ) : null}
      {/* Only hidden: the marks stay. */}
      {opened ? (
        <div hidden={means !== 'print'}>
          <PrintPart {...props} />
        </div>
      ) : null}
      <div role="status">
        {upper || lower ? <p className="note">{sayOwnArch('scanned', { jaws: upper && lower ? 'both' : upper ? 'upper' : 'lower' })}</p> : null}
        {arch.measured !== undefined && fitBehind(arch) === null ? <p className="note">{sayOwnArch('changedByHand')}</p> : null}
        {trouble ? <p className="caution">{sayOwnArch('notFitted')}</p> : null}
        {fit.kind === 'fitted' ? <Contradictions fit={fit} /> : null}
      </div>
      <div className="fields">
        <Picker
          label={sayOwnArch('family')}
          options={familyOptions()}
          value={measured.family}
          onChange={(id) => edit(withFamily(record, id as ArchFamily), null)}
        />
      </div>
      {arch.measured === undefined ? null : (
        <div className="button-row">
          <button type="button" className="quiet" onClick={() => onChange((now) => ({ ...now, arch: arches[0]?.arch ?? now.arch }))}>
            {sayOwnArch('back')}
          </button>
          <span className="number-field__hint">{sayOwnArch('backHint')}</span>
        </div>
      )}
      <h4>{sayOwnArch('sure')}</h4>
      <Sure {...props} isMeasured={upper || lower || (fitBehind(arch) !== null && (measured.measures.length > 0 || measured.prints !== undefined))} />
    </div>
  );
}

type Means = 'ruler' | 'print';

interface MeasureFieldsProps {
  readonly name: ArchMeasureName;
  readonly fitted: FittedMeasure | null;
  readonly measured: ArchMeasureSpec | null;
  onMeasure(change: { readonly mm?: number; readonly sdMm?: number } | null, key: string): void;
  onSettle(): void;
}

function MeasureFields({ name, fitted, measured, onMeasure, onSettle }: MeasureFieldsProps): ReactNode {
  const letter = LETTERS[name];
  const [min, max] = measureKind(name).rangeMm;
  return (
    <div className="own-arch__measures">
      <NumberField
        label={`${letter} ${labelWords(name)}`}
        value={measured?.mm ?? null}
        range={{ min, max, unit: 'mm' }}
        step={0.1}
        // What the other measures and people's usual mouths make likely: the end of the range would be nobody's mouth.
        start={fitted === null ? undefined : Number(fitted.fittedMm.toFixed(1))}
        places={2}
        optional
        hint={
          <>
            {hintWords(name)}
            {fitted === null ? null : <span className="own-arch__fitted">{fittedWords(fitted)}</span>}
          </>
        }
        onChange={(mm, key) => onMeasure(mm === null ? null : { mm }, key)}
        onSettle={onSettle}
      />
      {measured === null ? null : (
        <NumberField
          label={sayOwnArch('deviation', { letter })}
          value={measured.sdMm}
          range={{ min: 0, max: 20, unit: 'mm', aboveMin: true }}
          step={0.1}
          places={2}
          onChange={(sdMm, key) => onMeasure({ sdMm: sdMm ?? usualSdMm(name, measured.by) }, key)}
          onSettle={onSettle}
        />
      )}
    </div>
  );
}

function Contradictions({ fit }: { readonly fit: FittedArch }): ReactNode {
  return fit.measures
    .filter(({ name }) => fit.contradicting.includes(name))
    .map((one) => (
      <p key={one.name} className="caution">
        <strong>{sayOwnArch('lookAgain')}</strong> {contradictionWords(one)}
      </p>
    ));
}

/** Bands of the chosen note, and the bars. */
function Sure({ record, selected, shown, noteLabel, isMeasured }: OwnArchProps & { readonly isMeasured: boolean }): ReactNode {
  const reading = record.readings[selected];
  if (shown.failure !== null) return <p className="note">{sayOwnArch('failed', { why: shown.failure })}</p>;
  if (shown.budget === null) return <p className="note">{sayOwnArch('waiting')}</p>;
  const budget = reading && shown.budget.find((one) => one.midi === midiOf(reading.note) && one.direction === (reading.direction ?? null));
  if (!budget) return <p className="note">{sayOwnArch('noNote')}</p>;
  if (Math.max(budget.now.elevationSdDeg, budget.now.lateralSdDeg) < SHOWN_FROM_DEG) return <p className="note">{sayOwnArch('atHome')}</p>;
  return (
    <div className="own-arch__sure" data-behind={shown.behind}>
      <p>{sureWords(budget, noteLabel(budget.note), isMeasured)}</p>
      <BudgetChart budget={budget} />
      {SIDE.some((name) => !measuredOf(record).measures.some((one) => one.name === name)) ? <p className="note">{sayOwnArch('alsoCounted')}</p> : null}
    </div>
  );
}
