/** The ready-made classes under models/classes/: part of the class view’s own chunk, not of the first load. */
import rimOverTeeth from '../../models/classes/rim-over-teeth.json';
import type { ClassSpec } from './classSchema';

/** TypeScript widens the words in a JSON file to `string`; tests/unit/records/library.test.ts checks every file against its schema. */
export const classes: readonly [ClassSpec, ...ClassSpec[]] = [rimOverTeeth as unknown as ClassSpec];
