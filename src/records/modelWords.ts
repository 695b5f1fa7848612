/** What the ready-made models are called in the language set. The files under models/ hold the English; the messages are found by their ids. */
import type { PlayerSpec } from '../core/specs';
import type { MODELS } from '../words/en/models';
import { sayModels } from '../words/models';
import { type DemoPlayer, instrumentById } from './library';

/** A record made elsewhere may name an instrument that there is none of: it is called by that name. */
export const instrumentName = (id: string): string => (instrumentById(id) === undefined ? id : sayModel(`instrument-${id}`));
export const rimName = (id: string): string => sayModel(`rim-${id}`);
export const archName = (id: string): string => sayModel(`arch-${id}`);
/** In a list to choose from. */
export const inventedName = (id: string): string => sayModel(`player-${id}`);
export const inventedLabel = (id: string): string => sayModel(`label-${id}`);

/** An invented player with everything that is read in the language set: once it is on the page it is somebody's own, and no language changes it any more. */
export function inWords({ id, player }: DemoPlayer): PlayerSpec {
  const worded = <T extends { readonly id: string; readonly remark?: string | undefined }>(one: T): T =>
    one.remark === undefined ? one : { ...one, remark: sayModel(`remark-${id}-${one.id}`) };
  return {
    ...player,
    label: inventedLabel(id),
    lessons: player.lessons.map((lesson) => worded({ ...lesson, tryOuts: lesson.tryOuts.map(worded) })),
  };
}

/** tests/unit/records/modelWords.test.ts holds that every model has its messages. */
const sayModel = (key: string): string => sayModels(key as keyof typeof MODELS);
