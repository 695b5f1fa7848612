/** The ready-made data in the notebook's shape. */
import { arches, demoPlayers, instruments, rims, toothSpec } from '../records/library';
import type { NotebookLibrary } from '../notebook/props';
import { archName, instrumentName, inventedName, rimName } from '../records/modelWords';

const FRONT_TEETH = [13, 12, 11, 21, 22, 23, 43, 42, 41, 31, 32, 33];

export const notebookLibrary: NotebookLibrary = {
  teeth: FRONT_TEETH.map((fdi) => {
    const { outMm: _out, ...place } = toothSpec(fdi, 0);
    return place;
  }),
  instruments: instruments.map((one) => ({
    id: one.id,
    get name() {
      return instrumentName(one.id);
    },
    posture: one.held === 'lap' ? 'lap' : 'held',
    transpositionSemitones: one.notations[0]?.transpositionSemitones ?? 0,
    rimId: one.defaultRim,
  })),
  arches: arches.map(({ id, arch }) => ({
    id,
    get name() {
      return archName(id);
    },
    arch,
  })),
  rims: rims.map(({ id, rim }) => ({
    id,
    get name() {
      return rimName(id);
    },
    rim,
  })),
  players: demoPlayers.map(({ id, record }) => ({
    id,
    get name() {
      return inventedName(id);
    },
    record,
  })),
};
