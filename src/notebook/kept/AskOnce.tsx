import { type ReactNode, useEffect, useRef, useState } from 'react';
import { focusHeading } from '../focusHeading';

export interface AskOnceProps {
  /** What would be deleted, as it is called on the page. */
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
export function AskOnce({ what, consequence, verb = 'Delete', button: asking, onYes }: AskOnceProps): ReactNode {
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
      aria-label={`${verb} ${what}?`}
      onKeyDown={(event) => {
        if (event.key === 'Escape') setAsks(false);
      }}
    >
      <span>
        {verb} {what}? {consequence}
      </span>
      {/* The question takes the focus along, or it would be lost with the button. */}
      <button type="button" autoFocus onClick={() => setAsks(false)}>
        Keep it
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
