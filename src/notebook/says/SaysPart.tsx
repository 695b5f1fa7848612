import type { ReactNode } from 'react';
import type { CannotTell, Evidence } from '../../core/findings/findings';
import { type NoteNamer, cannotTellWords, evidenceWords } from './saysWords';

/** One finding: its heading, then what it says. */
export function SaysPart({ id, heading, children }: { readonly id: string; readonly heading: string; readonly children: ReactNode }): ReactNode {
  return (
    <section className="says-part" aria-labelledby={id}>
      <h3 id={id}>{heading}</h3>
      {children}
    </section>
  );
}

/** The answer first, in one sentence. */
export function Answer({ words }: { readonly words: string }): ReactNode {
  return <p className="says-answer">{words}</p>;
}

/** What is missing before anything can be told. */
export function CannotTellYet({ finding, name, about }: {
  readonly finding: CannotTell;
  readonly name: NoteNamer;
  /** Which of several this is: "Ascending", "Up and down". */
  readonly about?: string | undefined;
}): ReactNode {
  return <p className="says-answer says-answer--waiting">{cannotTellWords(finding, name, about)}</p>;
}

/** What the answer rests on. */
export function RestsOn({ evidence, words = '' }: { readonly evidence: Evidence; readonly words?: string }): ReactNode {
  return <p className="note">{`${evidenceWords(evidence)}${words === '' ? '' : ` ${words}`}`}</p>;
}

/** Opened by those who want the numbers. */
export function Numbers({ summary, children }: { readonly summary: string; readonly children: ReactNode }): ReactNode {
  return (
    <details>
      <summary>{summary}</summary>
      {children}
    </details>
  );
}
