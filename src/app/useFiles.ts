/** Players as files: saved, and taken in after the reader saw what would change. */
import { useState } from 'react';
import type { FilesPartProps } from '../notebook/kept/FilesPart';
import type { IncomingChoice, IncomingPlayer } from '../notebook/kept/props';
import { download } from '../print/saveFigure';
import { type ImportChoice, type PlannedPlayer, applyPlan, importPlan } from '../records/exchange';
import { oneLine } from '../records/refusal';
import { playersFileName, readPlayersFile } from '../records/playersFiles';
import { playersFileText } from '../records/schema';
import { type ScanInFile, scannedId } from '../records/scansInFile';
import type { Shelf } from '../records/shelfTypes';

import { useRecords } from './RecordsContext';
import { localDay } from './localDay';
import { putScans, scansOf } from './scans/scansWithFile';
import { useScanBytes } from './scans/useScanBytes';
import { useSession, useUnhurried } from './SessionContext';
import { sayPage } from '../words/page';

interface Incoming {
  readonly fileName: string;
  readonly plan: readonly PlannedPlayer[];
  readonly choices: ReadonlyMap<string, ImportChoice>;
  readonly scans: readonly ScanInFile[];
}

type Message = FilesPartProps['message'];

export interface Files extends Pick<FilesPartProps, 'incoming' | 'message' | 'scanBytes' | 'onSaveThis' | 'onSaveAll' | 'onFile' | 'onChoice' | 'onTakeIn' | 'onLeave'> {
  /** What is kept and cannot be read, as it stands. */
  onSaveDamaged(text: string): void;
}

export function useFiles(): Files {
  const { store } = useSession();
  const records = useRecords();
  const [incoming, setIncoming] = useState<Incoming | null>(null);
  const [message, setMessage] = useState<Message>(null);
  const scanBytes = useScanBytes(useUnhurried((state) => scannedId(state.player.arch)));
  const say = (kind: 'refused' | 'done', words: string): void => {
    setIncoming(null);
    setMessage({ kind, words });
  };
  const read = async (file: File): Promise<void> => {
    const parsed = await readPlayersFile(file);
    if (parsed.kind === 'refused') {
      say('refused', sayPage('fileRefused', { file: oneLine(file.name), why: parsed.message }));
      return;
    }
    await records.settle();
    const kept = await records.shelf.all();
    setMessage(null);
    setIncoming({ fileName: oneLine(file.name), plan: importPlan(kept.players, parsed.players), choices: new Map(), scans: parsed.scans ?? [] });
  };
  const takeIn = async ({ plan, choices, scans }: Incoming): Promise<void> => {
    const kept = await records.shelf.all();
    const chosen = applyPlan(plan, choices, kept.players.map(({ player }) => player.label));
    const answer = await records.shelf.importPlayers(chosen);
    if (answer.kind === 'not-saved') {
      say('refused', answer.message);
      return;
    }
    if (answer.kind === 'conflict') {
      say('refused', sayPage('changedMeanwhile'));
      return;
    }
    const isWhole = await putScans(scans, answer.players.map(({ player }) => player)).then(() => true, () => false);
    const openId = store.getState().player.id;
    const replaced = answer.players.find(({ player }) => player.id === openId);
    if (replaced === undefined) await records.settle();
    else await records.show(replaced.player, replaced.revision, true);
    const done = sayPage('takenIn', { count: answer.players.length });
    say('done', isWhole ? done : `${done} ${sayPage('scansNotTakenIn')}`);
  };
  return {
    incoming: incoming === null ? null : { fileName: incoming.fileName, players: incoming.plan.map((one) => shownPlayer(one, incoming.choices)) },
    message,
    scanBytes,
    onSaveThis: (withScan) => {
      const { player } = store.getState();
      if (withScan) saveWithScan(player).catch(() => say('refused', sayPage('scanNotFetched')));
      else save([player]);
    },
    onSaveDamaged: (text) => download(new Blob([text], { type: 'application/json' }), `rimpath-${sayPage('unreadableFile')}-${localDay()}.json`),
    onSaveAll: () => void saveAll(records.settle, records.shelf.all, say),
    onFile: (file) => void read(file),
    onChoice: (id, choice) => {
      if (incoming !== null) setIncoming({ ...incoming, choices: new Map([...incoming.choices, [id, IMPORT_CHOICES[choice]]]) });
    },
    onTakeIn: () => void (incoming !== null && takeIn(incoming)),
    onLeave: () => say('done', sayPage('nothingChanged')),
  };
}

async function saveAll(
  settle: () => Promise<void>,
  all: Shelf['all'],
  say: (kind: 'refused' | 'done', words: string) => void,
): Promise<void> {
  await settle();
  const { players, damaged, message } = await all();
  if (message !== null) {
    say('refused', message);
    return;
  }
  save(players.map(({ player }) => player));
  if (damaged.length > 0) say('done', sayPage('savedNotAll', { count: players.length, damaged: damaged.length }));
}

const IMPORT_CHOICES: Readonly<Record<IncomingChoice, ImportChoice>> = { take: 'take-over', both: 'keep-both', leave: 'leave-out' };
const SHOWN_CHOICES: Readonly<Record<ImportChoice, IncomingChoice>> = { 'take-over': 'take', 'keep-both': 'both', 'leave-out': 'leave' };

function shownPlayer({ incoming, kind, differences, suggested }: PlannedPlayer, choices: Incoming['choices']): IncomingPlayer {
  const choice = SHOWN_CHOICES[choices.get(incoming.id) ?? suggested];
  return { id: incoming.id, label: incoming.label, kind, differences, choice };
}

function save(players: readonly PlannedPlayer['incoming'][], scans: readonly ScanInFile[] = []): void {
  download(new Blob([playersFileText(players, scans)], { type: 'application/json' }), playersFileName(players, localDay()));
}

const saveWithScan = async (player: PlannedPlayer['incoming']): Promise<void> => save([player], await scansOf(player));
