/** Heads of a table that tells travel and the horn's angles, up and to the right each: two rows of them. */
import type { ReactNode } from 'react';
import { sayNotebook } from '../words/notebook';

/** For the upper row. */
export function TravelAndHornHeads(): ReactNode {
  return (
    <>
      <th scope="colgroup" colSpan={2}>
        {sayNotebook('travelHead')}
      </th>
      <th scope="colgroup" colSpan={2}>
        {sayNotebook('hornHead')}
      </th>
    </>
  );
}

export interface UpAndRightHeadsProps {
  /** So many pairs of columns are under them. */
  readonly pairs: number;
  /** Whose right the first pair's is, where that is not the player's own. */
  readonly firstRight?: string;
}

/** For the lower row. */
export function UpAndRightHeads({ pairs, firstRight = sayNotebook('rightHead') }: UpAndRightHeadsProps): ReactNode {
  return Array.from({ length: 2 * pairs }, (_, index) => (
    <th key={index} scope="col">
      {index % 2 === 0 ? sayNotebook('upHead') : index === 1 ? firstRight : sayNotebook('rightHead')}
    </th>
  ));
}
