/** Who is seen in a class: an invented player, with other teeth or another rim where a step says so, or the player on the page. Each is worked out once. */
import { analyse } from '../../core/analyse';
import type { Analysis, LiveFrame, ViewName } from '../../core/analysis';
import { type Arch, buildArch } from '../../core/arch';
import { type Live, createLive, samplePath } from '../../core/live';
import type { PlayerRecord } from '../../core/specs';
import { type ClassWho, THIS_PLAYER } from '../../records/classSchema';
import { demoPlayers } from '../../records/library';
import { PATH_STEPS } from '../pathSampler';
import { inventedLabel } from '../../records/modelWords';

export interface Actor {
  readonly key: string;
  readonly label: string;
  readonly analysis: Analysis;
  readonly arch: Arch;
  readonly live: Live;
  /** Samples along each way of the path, made when first asked for. */
  path(view: ViewName): readonly (readonly LiveFrame[])[];
}

export interface Cast {
  /** null: there is nothing to be seen of them, since the record cannot be computed. */
  actor(who: ClassWho): Actor | null;
}

/** `own`: what was computed of the player on the page; null while nothing was. */
export function createCast(own: Analysis | null): Cast {
  const known = new Map<string, Actor | null>();
  return {
    actor: (who) => {
      const key = whoKey(who);
      const found = known.get(key);
      if (found !== undefined) return found;
      const made = castOne(key, who, own);
      known.set(key, made);
      return made;
    },
  };
}

export const whoKey = ({ player, arch, rim }: ClassWho): string => JSON.stringify([player, arch, rim]);

function castOne(key: string, who: ClassWho, own: Analysis | null): Actor | null {
  const record = recordFor(who, own?.record ?? null);
  if (record === null) return null;
  try {
    const analysis = own !== null && record === own.record ? own : analyse(record);
    const live = createLive(analysis, true);
    const paths = new Map<ViewName, readonly (readonly LiveFrame[])[]>();
    return {
      key,
      label: who.player === THIS_PLAYER ? record.player.label : inventedLabel(who.player),
      analysis,
      arch: buildArch(record.arch),
      live,
      path: (view) => {
        const ways = paths.get(view) ?? analysis.branches.map(({ direction }) => samplePath(analysis, createLive(analysis, true), PATH_STEPS, { horn: 'follow', view, direction }));
        paths.set(view, ways);
        return ways;
      },
    };
  } catch {
    return null;
  }
}

/** null for an invented player that there is none of, and for the player on the page while there is nothing to show. */
export function recordFor(who: ClassWho, own: PlayerRecord | null): PlayerRecord | null {
  const record = who.player === THIS_PLAYER ? own : (demoPlayers.find(({ id }) => id === who.player)?.record ?? null);
  if (record === null || (who.arch === undefined && who.rim === undefined)) return record;
  const arch = who.arch ?? record.arch;
  // One surface has no jaw that could stand elsewhere.
  const readings = 'single' in arch ? record.readings.map(({ jaw: _jaw, ...rest }) => rest) : record.readings;
  return { ...record, arch, rim: who.rim ?? record.rim, readings };
}
