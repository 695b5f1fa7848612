import { type ReactNode, useEffect, useId, useRef } from 'react';
import { LONGEST_TITLE, LONGEST_TO_SAY, LONGEST_WORDS, type StepWords } from '../../records/classSchema';
import { isAsItCame, type PlannedStep } from './plan';
import type { ClassState } from './useClass';
import { PLAN } from './words';

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
          {PLAN.heading}
        </h2>
        <button type="button" onClick={onClose}>
          {PLAN.close}
        </button>
      </header>
      <p>{kept ? PLAN.kept : PLAN.notKept}</p>
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
        {PLAN.allAsItCame}
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
          <span aria-hidden="true">{PLAN.shownShort}</span>
          <span className="only-heard">{PLAN.shown(title)}</span>
        </label>
        <button type="button" aria-disabled={first} aria-label={PLAN.earlier(title)} onClick={() => edit({ kind: 'move', id, by: -1 })}>
          {PLAN.earlierShort}
        </button>
        <button type="button" aria-disabled={last} aria-label={PLAN.later(title)} onClick={() => edit({ kind: 'move', id, by: 1 })}>
          {PLAN.laterShort}
        </button>
        <button type="button" aria-label={PLAN.goTo(title)} onClick={() => goTo(id)}>
          {PLAN.goToShort}
        </button>
      </span>
      <details>
        <summary aria-label={PLAN.words(title)}>{PLAN.wordsShort}</summary>
        <TextPart label={PLAN.title} value={title} longest={LONGEST_TITLE} onChange={(next) => word({ title: next })} />
        <TextPart label={PLAN.room} value={words} longest={LONGEST_WORDS} tall onChange={(next) => word({ words: next })} />
        <TextPart label={PLAN.toSay} value={toSay} longest={LONGEST_TO_SAY} tall onChange={(next) => word({ toSay: next })} />
        <button type="button" disabled={!worded} onClick={() => edit({ kind: 'words as they came', id })}>
          {PLAN.asItCame}
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
