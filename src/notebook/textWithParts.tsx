import { Fragment, type ReactNode } from 'react';

/** Stands in a message for a part that is more than text, such as a word in another ink: it goes where the language puts it. */
export const partOf = (name: string): string => `${MARK}${name}${MARK}`;

/** A message in which `partOf(name)` stood, with what belongs there. */
export function textWithParts(said: string, parts: Readonly<Record<string, ReactNode>>): ReactNode {
  // Every other piece is a name.
  return said.split(MARK).map((piece, index) => (index % 2 === 0 ? piece : <Fragment key={piece}>{parts[piece]}</Fragment>));
}

/** No text has it. */
const MARK = '\u0000';
