/** `predict` without the process: arguments and input in, text and exit status out. */
import type { Readable } from 'node:stream';
import { parseArgs } from 'node:util';
import type { Analysis } from '../core/analysis';
import { computeBands } from '../core/bands';
import { recordOf } from '../core/lessons';
import type { PlayerRecord } from '../core/specs';
import { HomeUnseatedError } from '../core/words';
import { oneLine, valueWords } from '../records/refusal';
import { parsePlayersText } from '../records/schema';
import { sayCli } from '../words/cli';
import { LANGUAGES, isLanguage, speak } from '../words/language';
import { type Wanted, chosenLesson } from './chosen';
import { notFinite, predictOutput, problemLine } from './predictOutput';
import { readInput } from './readInput';

export interface PredictResult {
  /** 0: printed. 2: the input or the arguments are at fault. 1: the program is. */
  readonly status: 0 | 1 | 2;
  readonly out: string;
  readonly err: string;
}

const usage = (): string => `${sayCli('usage', { languages: LANGUAGES.join('|') })}   ${sayCli('usageNotes')}`;

export async function runPredict(
  words: readonly string[],
  standardInput: Readable,
  analyse: (record: PlayerRecord) => Analysis,
): Promise<PredictResult> {
  const asked = argumentsOf(words);
  await speak(typeof asked !== 'string' && isLanguage(asked.language) ? asked.language : 'en');
  if (typeof asked === 'string') return failed(2, sayCli('arguments', { why: asked, usage: usage() }));
  const { names, help, wanted, language } = asked;
  const [name] = names;
  if (help) return { status: 0, out: `${usage()}\n`, err: '' };
  if (!isLanguage(language)) return failed(2, sayCli('language', { value: valueWords(language), allowed: LANGUAGES.join(', ') }));
  if (name === undefined || names.length > 1) return failed(2, sayCli('oneFile', { count: names.length, usage: usage() }));
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
    return recordAtFault ? failed(2, words) : failed(1, sayCli('internal', { detail: words }));
  }
  const problem = problemLine(analysis);
  if (problem !== null) return failed(2, problem);
  const output = predictOutput(analysis, computeBands(analysis));
  const place = notFinite(output);
  if (place !== null) return failed(1, sayCli('notFinite', { place }));
  return { status: 0, out: `${JSON.stringify(output)}\n`, err: '' };
}

interface Asked {
  readonly names: readonly string[];
  readonly help: boolean;
  readonly wanted: Wanted;
  readonly language: string;
}

/** What was asked for, or what is wrong with how it was asked. */
function argumentsOf(words: readonly string[]): Asked | string {
  try {
    const { positionals, values } = parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { help: { type: 'boolean', short: 'h' }, player: { type: 'string' }, lesson: { type: 'string' }, language: { type: 'string', default: 'en' } },
    });
    return { names: positionals, help: values.help === true, wanted: { player: values.player, lesson: values.lesson }, language: values.language };
  } catch (error) {
    return error instanceof Error ? error.message : sayCli('unreadable');
  }
}

function failed(status: 1 | 2, message: string): PredictResult {
  return { status, out: '', err: `${oneLine(message)}\n` };
}
