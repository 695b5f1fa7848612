import type { ReactNode } from 'react';
import { sayPage } from '../../words/page';

/** One way of giving the picture to somebody else. */
export interface SharePart {
  /** Its place on the page, for links to it. */
  readonly id: string;
  readonly heading: string;
  readonly content: ReactNode;
}

/** The chapter is a list of parts, each by itself. */
export function ShareChapter({ parts }: { readonly parts: readonly SharePart[] }): ReactNode {
  return (
    <section className="chapter" id="share" aria-labelledby="share-heading">
      <h2 id="share-heading">{sayPage('headingShare')}</h2>
      {parts.map(({ id, heading, content }) => (
        <section key={id} className="part" id={id} aria-labelledby={`${id}-heading`}>
          <h3 id={`${id}-heading`}>{heading}</h3>
          {content}
        </section>
      ))}
    </section>
  );
}
