import { type ReactNode, useId, useState } from 'react';
import type { Answer } from './answer';
import { sayClass } from '../../words/class';

interface QuestionPartProps {
  readonly question: string;
  readonly answers: readonly [string, string, string];
  /** null: not shown yet. */
  readonly answer: Answer | null;
}

/** A question for the room with the hands raised for each answer, which may be typed; then which of them it is. */
export function QuestionPart({ question, answers, answer }: QuestionPartProps): ReactNode {
  const [hands, setHands] = useState<readonly string[]>(['', '', '']);
  const id = useId();
  return (
    <section className="klass-question" aria-labelledby={id}>
      <h2 id={id}>{question}</h2>
      <ul>
        {answers.map((words, index) => (
          <li key={words} className={answer === index ? 'klass-answer klass-answer--so' : 'klass-answer'}>
            <span className="klass-answer__words">
              {answer === index ? <Tick /> : null}
              {words}
              {answer === index ? <span className="only-heard">{sayClass('so')}</span> : null}
            </span>
            <label className="klass-answer__hands">
              <span aria-hidden="true">{sayClass('hands')}</span>
              <span className="only-heard">{sayClass('handsFor', { answer: words })}</span>
              <input
                type="text"
                inputMode="numeric"
                autoComplete="off"
                maxLength={3}
                value={hands[index]}
                onChange={({ target }) => setHands(hands.map((one, at) => (at === index ? target.value.replace(/\D/g, '') : one)))}
              />
            </label>
          </li>
        ))}
      </ul>
    </section>
  );
}

const Tick = (): ReactNode => (
  <svg className="klass-answer__tick" viewBox="0 0 24 24" aria-hidden="true">
    <path d="M4 13l5 6L20 5" fill="none" stroke="currentColor" strokeWidth="3.4" strokeLinecap="round" strokeLinejoin="round" />
  </svg>
);
