import { type ReactNode, useState } from 'react';
import { lessonOf } from '../core/lessons';
import { FilePart } from '../notebook/share/FilePart';
import type { FilePartProps } from '../notebook/share/props';
import { whatGoesWords } from '../notebook/share/words';
import { download } from '../print/saveFigure';
import { localDay } from './localDay';
import { oneFileOf } from './oneFile';
import { ownPage } from './ownPage';
import { type Given, useGiven } from './useGiven';

/** The picture as one file; what goes along is chosen with the link. */
export function ShareFilePane(): ReactNode {
  const given = useGiven();
  const [told, setTold] = useState<{ readonly of: Given | null; readonly state: FilePartProps['state']; readonly failure: string | null }>(NOTHING_TOLD);
  const { player, lessonId, choice } = given;
  const { readings, tryOuts, measurings = [] } = lessonOf(player, lessonId);
  const save = async (): Promise<void> => {
    setTold({ of: given, state: 'making', failure: null });
    try {
      const { name, file } = await oneFileOf(given, localDay());
      download(file, name);
      setTold({ of: given, state: 'made', failure: null });
    } catch (error) {
      setTold({ of: given, state: 'failed', failure: error instanceof Error ? error.message : String(error) });
    }
  };
  // What was said of another picture is not true of this one.
  const { state, failure } = told.of === given || told.state === 'making' ? told : NOTHING_TOLD;
  return (
    <FilePart
      goes={whatGoesWords({ choice, readings: readings.length, tryOuts: tryOuts.length, measurings: measurings.length })}
      state={state}
      failure={failure}
      isOneFile={ownPage !== null}
      onSave={() => void save()}
    />
  );
}

const NOTHING_TOLD = { of: null, state: 'ready', failure: null } as const;
