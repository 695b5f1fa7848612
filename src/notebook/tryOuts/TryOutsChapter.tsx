import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import type { TryOutChange, TryOutSpec } from '../../core/specs';
import type { TryOutComparison } from '../../core/tryOutShapes';
import type { Posture } from '../../print/instrumentWords';
import { Caution } from '../Cautions';
import { Picker } from '../Choice';
import { RequiredField } from '../Fields';
import { AskOnce } from '../kept/AskOnce';
import { FIELDS } from '../ranges';
import { MOST_TRY_OUTS } from '../../records/playerSchema';
import { LONGEST_REMARK } from '../../records/readingRanges';
import { sayNotebook } from '../../words/notebook';
import { sayTryOuts } from '../../words/tryOuts';
import { ComparisonTable } from './ComparisonTable';
import { changeExplained, changeName, easeSentence, expectedSentence } from './words';

export interface TryOutsChapterProps {
  readonly tryOuts: readonly TryOutSpec[];
  /** By the try-out's id; absent until it is worked out. */
  readonly compared: ReadonlyMap<string, TryOutComparison>;
  readonly posture: Posture;
  noteLabel(note: string): string;
  /** The table in which a try-out's readings are typed, made elsewhere. */
  readingsOf(tryOut: TryOutSpec): ReactNode;
  onAdd(change: TryOutChange): void;
  onChange(tryOut: TryOutSpec, key: string): void;
  onDelete(id: string): void;
  onSettle(): void;
}

/** One deliberate change at a time, with its own readings, beside playing as usual. */
export function TryOutsChapter(props: TryOutsChapterProps): ReactNode {
  const { tryOuts, onAdd } = props;
  const chapter = useRef<HTMLElement>(null);
  const begun = useRef(false);
  useEffect(() => {
    // A new try-out is there to be typed in.
    if (begun.current) [...(chapter.current?.querySelectorAll('.try-out') ?? [])].at(-1)?.querySelector<HTMLElement>('table input')?.focus();
    begun.current = false;
  }, [tryOuts.length]);
  const add = (change: TryOutChange): void => {
    begun.current = true;
    onAdd(change);
  };
  return (
    <section className="chapter" id="try-outs" aria-labelledby="try-outs-heading" ref={chapter}>
      <h2 id="try-outs-heading">{sayTryOuts('heading')}</h2>
      <p className="note">{sayTryOuts('explained')}</p>
      {tryOuts.length < MOST_TRY_OUTS ? <Begin onAdd={add} /> : <p className="note">{sayTryOuts('full', { most: MOST_TRY_OUTS })}</p>}
      {tryOuts.map((tryOut, index) => (
        <OneTryOut key={tryOut.id} {...props} tryOut={tryOut} number={index + 1} />
      ))}
      <Caution about="change" />
      <Caution about="placement" />
      <Caution about="pain" />
    </section>
  );
}

type Kind = TryOutChange['kind'] | 'place-lower' | 'bring-left';

const kinds = (): readonly { readonly value: Kind; readonly label: string }[] => [
  { value: 'hold-horn', label: sayTryOuts('holdHorn') },
  { value: 'let-horn-follow', label: sayTryOuts('letFollow') },
  { value: 'place-rim', label: sayTryOuts('placeHigher') },
  { value: 'place-lower', label: sayTryOuts('placeLower') },
  { value: 'bring-horn-round', label: sayTryOuts('bringRight') },
  { value: 'bring-left', label: sayTryOuts('bringLeft') },
];

function Begin({ onAdd }: Pick<TryOutsChapterProps, 'onAdd'>): ReactNode {
  const [kind, setKind] = useState<Kind>('let-horn-follow');
  const [upMm, setUp] = useState(2);
  const [roundDeg, setRound] = useState(5);
  const change = (): TryOutChange => {
    if (kind === 'hold-horn' || kind === 'let-horn-follow') return { kind };
    if (kind === 'place-rim' || kind === 'place-lower') return { kind: 'place-rim', upMm: kind === 'place-rim' ? upMm : -upMm };
    return { kind: 'bring-horn-round', lateralDeg: kind === 'bring-horn-round' ? roundDeg : -roundDeg };
  };
  return (
    <div className="fields try-out-begin" role="group" aria-label={sayTryOuts('begin')}>
      <Picker label={sayTryOuts('whatToTry')} options={kinds()} value={kind} onChange={(value) => setKind(value as Kind)} />
      {kind === 'place-rim' || kind === 'place-lower' ? (
        <RequiredField label={sayTryOuts('byHowMuch')} value={upMm} shape={FIELDS.tryOutPlace} onChange={setUp} />
      ) : null}
      {kind === 'bring-horn-round' || kind === 'bring-left' ? (
        <RequiredField label={sayTryOuts('byHowMuch')} value={roundDeg} shape={FIELDS.tryOutRound} onChange={setRound} />
      ) : null}
      <button type="button" onClick={() => onAdd(change())}>
        {sayTryOuts('beginThis')}
      </button>
    </div>
  );
}

interface OneTryOutProps extends TryOutsChapterProps {
  readonly tryOut: TryOutSpec;
  readonly number: number;
}

function OneTryOut({ tryOut, number, compared, posture, noteLabel, readingsOf, onChange, onDelete, onSettle }: OneTryOutProps): ReactNode {
  const id = useId();
  const comparison = compared.get(tryOut.id);
  const { remark: _remark, ...rest } = tryOut;
  // As it is found: a table that folded up with the first reading typed in it would take the cursor away.
  const [beginsOpen] = useState(() => tryOut.readings.every(({ travel, horn, ease }) => travel === undefined && horn === undefined && ease === undefined));
  const name = changeName(tryOut.change, posture);
  return (
    <section className="part try-out" aria-labelledby={`${id}-name`}>
      <h3 id={`${id}-name`}>
        {sayTryOuts('numbered', { number, name })}
      </h3>
      <p className="note">{changeExplained(tryOut.change)}</p>
      {comparison === undefined ? null : comparison.kind === 'refused' ? (
        <p className="keeping keeping--warns">
          <strong>{sayTryOuts('notCompared')}</strong> {comparison.words}
        </p>
      ) : (
        <>
          {[expectedSentence(comparison, posture, noteLabel), easeSentence(comparison)].map((words) =>
            words === null ? null : <p key={words}>{words}</p>)}
          <ComparisonTable compared={comparison} noteLabel={noteLabel} name={name} />
          {comparison.problems.map((words) => (
            <p key={words} className="note">
              <strong>{sayNotebook('notShown')}</strong> {words}
            </p>
          ))}
        </>
      )}
      <details open={beginsOpen}>
        <summary>{sayTryOuts('whatWasSeen')}</summary>
        {readingsOf(tryOut)}
      </details>
      <div className="picker">
        <label htmlFor={`${id}-remark`}>{sayTryOuts('howItFelt')}</label>
        <textarea
          id={`${id}-remark`}
          rows={2}
          maxLength={LONGEST_REMARK}
          value={tryOut.remark ?? ''}
          onChange={({ target: { value } }) => onChange({ ...rest, ...(value !== '' && { remark: value }) }, `try-out-remark:${tryOut.id}`)}
          onBlur={onSettle}
        />
      </div>
      <p>
        <AskOnce what={sayTryOuts('tryOut', { number })} consequence={sayTryOuts('undoBack')} onYes={() => onDelete(tryOut.id)} />
      </p>
    </section>
  );
}
