import { type ReactNode, useEffect, useId, useRef } from 'react';
import { LONGEST_TITLE, LONGEST_TO_SAY, LONGEST_WORDS, type StepWords } from '../../records/classSchema';
import { isAsItCame, type PlannedStep } from './plan';
import type { ClassState } from './useClass';
import { sayClass } from '../../words/class';

interface PlanPanelProps {
  readonly state: ClassState;
  onClose(): void;
}

/** The teacher's own version of the class: order, what is skipped, words; and everything back as it came. */
export function PlanPanel({ state, onClose }: PlanPanelProps): ReactNode {
  const { steps, edit, kept, plan, planned } = state;
  const heading = useRef<HTMLHeadingElement>(null);
  const id = useId();
  useEffect(() => heading.current?.focus(), []);
  const shownCount = steps.filter(({ on }) => on).length;
  return (
    <section className="klass-plan" aria-labelledby={id}>
      <header>
        <h2 id={id} ref={heading} tabIndex={-1}>
          {sayClass('plan')}
        </h2>
        <button type="button" onClick={onClose}>
          {sayClass('close')}
        </button>
      </header>
      <p>{sayClass(kept ? 'planKept' : 'planNotKept')}</p>
      <ol>
        {steps.map((one, index) => (
          <PlanRow
            key={one.step.id}
            planned={one}
            here={one === planned}
            first={index === 0}
            last={index === steps.length - 1}
            onlyOne={one.on && shownCount === 1}
            edit={edit}
            goTo={state.goTo}
          />
        ))}
      </ol>
      <button type="button" disabled={isAsItCame(plan)} onClick={() => edit({ kind: 'all as it came' })}>
        {sayClass('allAsItCame')}
      </button>
    </section>
  );
}

interface PlanRowProps extends Pick<ClassState, 'edit' | 'goTo'> {
  readonly planned: PlannedStep;
  readonly here: boolean;
  readonly first: boolean;
  readonly last: boolean;
  readonly onlyOne: boolean;
}

function PlanRow({ planned, here, first, last, onlyOne, edit, goTo }: PlanRowProps): ReactNode {
  const { step, on, title, words, toSay, worded } = planned;
  const { id } = step;
  const word = (part: StepWords): void => edit({ kind: 'word', id, words: part });
  return (
    <li className={here ? 'klass-plan__row klass-plan__row--here' : 'klass-plan__row'} aria-current={here ? 'step' : undefined}>
      <span className="klass-plan__title">{title}</span>
      <span className="klass-plan__tools">
        <label className="klass-plan__shown">
          <input type="checkbox" checked={on} disabled={onlyOne} onChange={({ target }) => edit({ kind: 'switch', id, on: target.checked })} />
          <span aria-hidden="true">{sayClass('shown')}</span>
          <span className="only-heard">{sayClass('showStep', { title })}</span>
        </label>
        <button type="button" aria-disabled={first} aria-label={sayClass('moveEarlier', { title })} onClick={() => edit({ kind: 'move', id, by: -1 })}>
          {sayClass('earlier')}
        </button>
        <button type="button" aria-disabled={last} aria-label={sayClass('moveLater', { title })} onClick={() => edit({ kind: 'move', id, by: 1 })}>
          {sayClass('later')}
        </button>
        <button type="button" aria-label={sayClass('goToStep', { title })} onClick={() => goTo(id)}>
          {sayClass('goThere')}
        </button>
      </span>
      <details>
        <summary aria-label={sayClass('wordsOf', { title })}>{sayClass('words')}</summary>
        <TextPart label={sayClass('heading')} value={title} longest={LONGEST_TITLE} onChange={(next) => word({ title: next })} />
        <TextPart label={sayClass('forRoom')} value={words} longest={LONGEST_WORDS} tall onChange={(next) => word({ words: next })} />
        <TextPart label={sayClass('forSpeaker')} value={toSay} longest={LONGEST_TO_SAY} tall onChange={(next) => word({ toSay: next })} />
        <button type="button" disabled={!worded} onClick={() => edit({ kind: 'words as they came', id })}>
          {sayClass('wordsAsTheyCame')}
        </button>
      </details>
    </li>
  );
}

interface TextPartProps {
  readonly label: string;
  readonly value: string;
  readonly longest: number;
  readonly tall?: boolean;
  onChange(next: string): void;
}

function TextPart({ label, value, longest, tall = false, onChange }: TextPartProps): ReactNode {
  const id = useId();
  return (
    <span className="klass-plan__text">
      <label htmlFor={id}>{label}</label>
      {tall ? (
        <textarea id={id} rows={3} maxLength={longest} value={value} onChange={({ target }) => onChange(target.value)} />
      ) : (
        <input id={id} type="text" maxLength={longest} value={value} onChange={({ target }) => onChange(target.value)} />
      )}
    </span>
  );
}
