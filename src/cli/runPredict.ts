/** `predict` without the process: arguments and input in, text and exit status out. */
import type { Readable } from 'node:stream';
import type { Analysis } from '../core/analysis';
import { computeBands } from '../core/bands';
import type { PlayerRecord } from '../core/specs';
import { HomeUnseatedError } from '../core/words';
import { oneLine } from '../records/refusal';
import { parseRecordText } from '../records/schema';
import { notFinite, predictOutput, problemLine } from './predictOutput';
import { readInput } from './readInput';

export interface PredictResult {
  /** 0: printed. 2: the input or the arguments are at fault. 1: the program is. */
  readonly status: 0 | 1 | 2;
  readonly out: string;
  readonly err: string;
}

const USAGE = 'usage: npm run -s predict -- FILE.json   (- reads standard input)';

export async function runPredict(
  names: readonly string[],
  standardInput: Readable,
  analyse: (record: PlayerRecord) => Analysis,
): Promise<PredictResult> {
  const [name] = names;
  if (name === '--help' || name === '-h') return { status: 0, out: `${USAGE}\n`, err: '' };
  if (name === undefined || names.length > 1) return failed(2, `arguments: ${names.length}; allowed: one file name. ${USAGE}`);
  const input = await readInput(name, standardInput);
  if (input.kind === 'refused') return failed(2, input.message);
  const parsed = parseRecordText(input.text);
  if (parsed.kind === 'refused') return failed(2, parsed.message);

  let analysis: Analysis;
  try {
    analysis = analyse(parsed.record);
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

function failed(status: 1 | 2, message: string): PredictResult {
  return { status, out: '', err: `${oneLine(message)}\n` };
}
