import { type ReactNode, useEffect, useRef, useState } from 'react';
import { sayKept } from '../../words/kept';
import { focusHeading } from '../focusHeading';

export interface AskOnceProps {
  /** What would be deleted, as it is called on the page; in German as what is deleted (accusative). */
  readonly what: string;
  /** What can be done about it afterwards. */
  readonly consequence: string;
  /** What the button says that asks and that does it; 'Delete' where nothing else is said. */
  readonly verb?: string;
  /** What the asking button says; where nothing else is given the verb, with `what` heard behind it. */
  readonly button?: ReactNode;
  onYes(): void;
}

/** Deleting, and forgetting, asks once, in its own place, without a window over the page. */
export function AskOnce({ what, consequence, verb = sayKept('delete'), button: asking, onYes }: AskOnceProps): ReactNode {
  const [asks, setAsks] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const wasAsked = useRef(false);
  useEffect(() => {
    // Back to where the question was asked from.
    if (!asks && wasAsked.current) button.current?.focus();
    wasAsked.current = asks;
  }, [asks]);
  if (!asks) {
    return (
      <button ref={button} type="button" className="quiet" onClick={() => setAsks(true)}>
        {asking ?? (
          <>
            {verb}
            <span className="only-heard"> {what}</span>
          </>
        )}
      </button>
    );
  }
  return (
    <span
      className="ask-once"
      role="group"
      aria-label={questionWords(verb, what)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') setAsks(false);
      }}
    >
      <span>
        {questionWords(verb, what)} {consequence}
      </span>
      {/* The question takes the focus along, or it would be lost with the button. */}
      <button type="button" autoFocus onClick={() => setAsks(false)}>
        {sayKept('keepIt')}
      </button>
      <button
        type="button"
        onClick={({ currentTarget }) => {
          focusHeading(currentTarget);
          wasAsked.current = false;
          setAsks(false);
          onYes();
        }}
      >
        {verb}
      </button>
    </span>
  );
}

/** "Delete try-out 1?", in German "Versuch 1 löschen?": the verb, which begins a button, stands where the language puts it. */
function questionWords(verb: string, what: string): string {
  const asked = sayKept('question', { verb: verb.slice(0, 1).toLowerCase() + verb.slice(1), what });
  return asked.slice(0, 1).toUpperCase() + asked.slice(1);
}
