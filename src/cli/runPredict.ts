/** `predict` without the process: arguments and input in, text and exit status out. */
import type { Readable } from 'node:stream';
import { parseArgs } from 'node:util';
import type { Analysis } from '../core/analysis';
import { computeBands } from '../core/bands';
import { recordOf } from '../core/lessons';
import type { PlayerRecord } from '../core/specs';
import { HomeUnseatedError } from '../core/words';
import { oneLine } from '../records/refusal';
import { parsePlayersText } from '../records/schema';
import { type Wanted, chosenLesson } from './chosen';
import { notFinite, predictOutput, problemLine } from './predictOutput';
import { readInput } from './readInput';

export interface PredictResult {
  /** 0: printed. 2: the input or the arguments are at fault. 1: the program is. */
  readonly status: 0 | 1 | 2;
  readonly out: string;
  readonly err: string;
}

const USAGE =
  'usage: npm run -s predict -- FILE.json [--player LABEL|ID] [--lesson NUMBER|DAY]   ' +
  '(- reads standard input; of several lessons the last one is taken)';

export async function runPredict(
  words: readonly string[],
  standardInput: Readable,
  analyse: (record: PlayerRecord) => Analysis,
): Promise<PredictResult> {
  const asked = argumentsOf(words);
  if (typeof asked === 'string') return failed(2, `arguments: ${asked}. ${USAGE}`);
  const { names, help, wanted } = asked;
  const [name] = names;
  if (help) return { status: 0, out: `${USAGE}\n`, err: '' };
  if (name === undefined || names.length > 1) return failed(2, `arguments: ${names.length}; allowed: one file name. ${USAGE}`);
  const input = await readInput(name, standardInput);
  if (input.kind === 'refused') return failed(2, input.message);
  const parsed = parsePlayersText(input.text);
  if (parsed.kind === 'refused') return failed(2, parsed.message);
  const chosen = chosenLesson(parsed.players, wanted);
  if (chosen.kind === 'refused') return failed(2, chosen.message);

  let analysis: Analysis;
  try {
    analysis = analyse(recordOf(chosen.player, chosen.lesson));
  } catch (error) {
    // These two say which part of the record cannot be computed; anything else is a fault of the program.
    const recordAtFault = error instanceof HomeUnseatedError || error instanceof RangeError;
    const words = error instanceof Error ? error.message : String(error);
    return recordAtFault ? failed(2, words) : failed(1, `internal error: ${words}`);
  }
  const problem = problemLine(analysis);
  if (problem !== null) return failed(2, problem);
  const output = predictOutput(analysis, computeBands(analysis));
  const place = notFinite(output);
  if (place !== null) return failed(1, `internal error: ${place} is not a finite number`);
  return { status: 0, out: `${JSON.stringify(output)}\n`, err: '' };
}

/** What was asked for, or what is wrong with how it was asked. */
function argumentsOf(words: readonly string[]): { names: readonly string[]; help: boolean; wanted: Wanted } | string {
  try {
    const { positionals, values } = parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { help: { type: 'boolean', short: 'h' }, player: { type: 'string' }, lesson: { type: 'string' } },
    });
    return { names: positionals, help: values.help === true, wanted: { player: values.player, lesson: values.lesson } };
  } catch (error) {
    return error instanceof Error ? error.message : 'unreadable';
  }
}

function failed(status: 1 | 2, message: string): PredictResult {
  return { status, out: '', err: `${oneLine(message)}\n` };
}
