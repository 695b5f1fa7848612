/** Who stands beside the player on the page: one of those kept here or an invented one, as their last lesson has them. */
import { createStore } from 'zustand/vanilla';
import { analyse } from '../../core/analyse';
import type { Analysis, LiveFrame, ViewName } from '../../core/analysis';
import { type Arch, buildArch } from '../../core/arch';
import { lessonOf, recordOf } from '../../core/lessons';
import { type Live, createLive, samplePath } from '../../core/live';
import type { PlayerRecord } from '../../core/specs';
import { demoPlayers } from '../../records/library';
import type { Shelf } from '../../records/shelfTypes';
import { PATH_STEPS } from '../pathSampler';
import { inventedLabel } from '../../records/modelWords';
import { sayBeside } from '../../words/beside';

export interface Other {
  readonly name: string;
  readonly analysis: Analysis;
  readonly arch: Arch;
  readonly live: Live;
  path(view: ViewName): readonly (readonly LiveFrame[])[];
}

export interface BesideState {
  /** As chosen: '' for nobody. */
  readonly choice: string;
  readonly other: Other | null;
  /** Why whoever was chosen cannot be shown. */
  readonly message: string | null;
}

const INVENTED = 'invented:';
export const inventedChoice = (id: string): string => `${INVENTED}${id}`;
export const isInvented = (choice: string): boolean => choice.startsWith(INVENTED);

/** Kept over a measuring that takes the stage's place for a while. */
export const besideStore = createStore<BesideState>(() => ({ choice: '', other: null, message: null }));

export async function chooseOther(choice: string, shelf: Shelf): Promise<void> {
  besideStore.setState({ choice, other: null, message: null });
  if (choice !== '') await takeOther(choice, shelf);
}

/** Whoever stands there as they are kept now, as after a file has changed them; until that is worked out they stand as they did. */
export async function renewOther(shelf: Shelf): Promise<void> {
  const { choice } = besideStore.getState();
  if (choice !== '') await takeOther(choice, shelf);
}

async function takeOther(choice: string, shelf: Shelf): Promise<void> {
  const found = isInvented(choice) ? inventedRecord(choice.slice(INVENTED.length)) : await keptRecord(choice, shelf);
  // Another may have been chosen meanwhile.
  if (besideStore.getState().choice !== choice) return;
  if (found === null) {
    besideStore.setState({ other: null, message: sayBeside('notFound') });
    return;
  }
  try {
    besideStore.setState({ other: otherOf(found), message: null });
  } catch {
    besideStore.setState({ other: null, message: sayBeside('notComputed', { name: found.player.label }) });
  }
}

function inventedRecord(id: string): PlayerRecord | null {
  const record = demoPlayers.find((one) => one.id === id)?.record;
  return record === undefined ? null : { ...record, player: { ...record.player, label: inventedLabel(id) } };
}

async function keptRecord(id: string, shelf: Shelf): Promise<PlayerRecord | null> {
  const got = await shelf.get(id);
  return got.kind === 'player' ? recordOf(got.player, lessonOf(got.player, '')) : null;
}

/** Throws where the record cannot be computed. */
function otherOf(record: PlayerRecord): Other {
  const analysis = analyse(record);
  const paths = new Map<ViewName, readonly (readonly LiveFrame[])[]>();
  return {
    name: record.player.label,
    analysis,
    arch: buildArch(record.arch),
    live: createLive(analysis, true),
    path: (view) => {
      const known = paths.get(view);
      if (known !== undefined) return known;
      const apart = createLive(analysis, true);
      const made = analysis.branches.map(({ direction }) => samplePath(analysis, apart, PATH_STEPS, { horn: 'follow', view, direction }));
      paths.set(view, made);
      return made;
    },
  };
}
