/** What the readings say, joined to the page: fetched when the page stands, worked out beside it, drawn when no hand is on the rim. */
import { type ReactNode, useEffect, useState, useSyncExternalStore } from 'react';
import type { EntryStyle } from '../notebook/props';
import { SaysChapter } from '../notebook/says/SaysChapter';
import { useRecords } from './RecordsContext';
import { useSession, useUnhurried } from './SessionContext';
import { postureOf } from './describe';
import { type CrossKeeper, createCrossKeeper } from './crossKeeper';
import { type FindingsKeeper, createFindingsKeeper } from './findingsKeeper';
import { createFindingsWork } from './findingsWork';
import { afterRest } from './idle';

export function SaysPane({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const { store } = useSession();
  const records = useRecords();
  const [keepers, setKeepers] = useState<Keepers | null>(null);
  useEffect(() => {
    // One worker for both: it answers one question after the other.
    const work = createFindingsWork();
    const { settle, subscribe, shelf } = records;
    const cross = createCrossKeeper(store, { settle, subscribe, all: () => shelf.all() }, (record) => work.say(record), afterRest);
    const keeper = createFindingsKeeper(store, afterRest, work);
    setKeepers({ keeper, cross });
    return () => {
      cross.dispose();
      keeper.dispose();
    };
  }, [store, records]);
  return keepers === null ? null : <Says {...keepers} entry={entry} />;
}

interface Keepers {
  readonly keeper: FindingsKeeper;
  readonly cross: CrossKeeper;
}

function Says({ keeper, cross, entry }: Keepers & { readonly entry: EntryStyle }): ReactNode {
  const { record, said, progress, failure, own } = useSyncExternalStore(keeper.subscribe, keeper.current);
  const crossed = useSyncExternalStore(cross.subscribe, cross.current);
  const { said: source } = useSession();
  useEffect(() => source.tell(record === null || said === null ? null : { record, findings: said.findings }), [source, record, said]);
  const present = useUnhurried((state) => state.record);
  const posture = useUnhurried((state) => postureOf(state.record.player.instrument));
  return (
    <SaysChapter
      said={said}
      failure={failure}
      behind={record !== present}
      own={own}
      progress={progress}
      entry={entry}
      posture={posture}
      onOwnShape={keeper.askOwnShape}
      onCancelOwnShape={keeper.cancelOwnShape}
      cross={crossed}
      onCross={cross.look}
      onCancelCross={cross.cancel}
    />
  );
}
