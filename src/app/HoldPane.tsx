/** The part on printing joined to the page: makes what is asked for in workers, one thing after the other. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Analysis } from '../core/analysis';
import { fileNamePart } from '../core/fileNames';
import { HoldPart, type HoldState } from '../notebook/share/HoldPart';
import type { HeldId } from '../notebook/share/holdWords';
import { noteAsShown } from '../notebook/noteNames';
import { download } from '../print/saveFigure';
import { askSolid } from '../workers/askSolid';
import type { SolidAnswer, SolidFiles } from '../workers/solidWorker';
import { useUnhurried } from './SessionContext';
import { heldWishes } from './heldWishes';
import { useEntry } from './useEntry';
import { useLabelTick } from './useLabelTick';
import '../notebook/share/leaving.css';
import { refusalWords } from '../solids/refusalWords';
import { sayHold } from '../words/hold';

interface Made {
  readonly of: Analysis;
  readonly answers: ReadonlyMap<HeldId, SolidAnswer>;
  readonly pegNames: readonly string[];
  readonly pegsLeftOut: number;
}

export function HoldPane(): ReactNode {
  const analysis = useUnhurried((state) => state.analysis);
  const entry = useEntry();
  const [made, setMade] = useState<Made | null>(null);
  const [working, setWorking] = useState<{ readonly done: number; readonly of: number } | null>(null);
  const [withLabel, setWithLabel] = useLabelTick();
  const [message, setMessage] = useState('');
  const stop = useRef<() => void>(() => undefined);
  useEffect(() => () => stop.current(), []);

  const make = async (from: Analysis): Promise<void> => {
    const { wishes, ...pegs } = heldWishes(from, (note) => noteAsShown(note, entry));
    const answers = new Map<HeldId, SolidAnswer>();
    let stopped = false;
    for (const [done, { id, wish }] of wishes.entries()) {
      setWorking({ done, of: wishes.length });
      const asked = askSolid(wish);
      stop.current = () => {
        stopped = true;
        asked.cancel();
      };
      answers.set(id, await asked.answer);
      // A cancelled question is never answered; one that was answered at that moment is not shown either.
      if (stopped) return;
    }
    setWorking(null);
    setMade({ of: from, answers, ...pegs });
  };
  const save = (id: HeldId, kind: 'stl' | 'glb', { [kind]: bytes }: SolidFiles, label: string): void => {
    const name = `${withLabel ? fileNamePart(label) : 'rimpath'}-${sayHold(`file-${id}`)}.${kind}`;
    download(new Blob([bytes], { type: kind === 'stl' ? 'model/stl' : 'model/gltf-binary' }), name);
    setMessage(sayHold('savedAs', { name }));
  };

  const label = analysis?.record.player.label ?? '';
  return (
    <HoldPart
      state={stateOf(analysis, made, working)}
      rimMm={analysis?.record.rim.outerDiameterMm ?? 0}
      withLabel={withLabel}
      hasLabel={label !== ''}
      message={message}
      onMake={() => {
        setMessage('');
        if (analysis !== null) void make(analysis);
      }}
      onCancel={() => {
        stop.current();
        setWorking(null);
      }}
      onSave={(id, kind) => {
        const answer = made?.answers.get(id);
        if (answer?.kind === 'made') save(id, kind, answer, label);
      }}
      onWithLabel={setWithLabel}
    />
  );
}

function stateOf(analysis: Analysis | null, made: Made | null, working: { readonly done: number; readonly of: number } | null): HoldState | null {
  if (analysis === null) return null;
  if (working !== null) return { kind: 'making', ...working };
  if (made === null || made.of !== analysis) return { kind: 'none', changed: made !== null };
  return {
    kind: 'made',
    rows: [...made.answers].map(([id, answer]) => ({ id, made: answer.kind === 'made' ? answer.figures : answer.kind === 'refused' ? refusalWords(answer.why) : answer.words })),
    pegNames: made.pegNames,
    pegsLeftOut: made.pegsLeftOut,
  };
}
