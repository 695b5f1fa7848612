/** All that the chapter on the readings shows of one record without being asked: the findings and what their pictures need. Types only. */
import type { AlongNote } from './alongLine';
import type { Finding, Findings, LocalShape } from './findings';
import type { PlacedNote } from './readingsOfWay';

export interface WaySaid {
  /** Low to high. */
  readonly notes: readonly PlacedNote[];
  /** Null where no line could be told. */
  readonly along: readonly AlongNote[] | null;
}

export interface Said {
  readonly findings: Findings;
  /** As findings.travel. */
  readonly ways: readonly WaySaid[];
  readonly local: Finding<LocalShape>;
}
