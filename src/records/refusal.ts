/** One line for people from the first thing wrong with a record: the field, the value and what is allowed. */
import type * as z from 'zod/mini';
import { saidNumber } from '../words/numbers';
import { sayRecords } from '../words/records';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** How much of a refused value is shown. */
const SHOWN_CHARACTERS = 60;

export function refusalWords(issues: readonly Issue[], root: unknown): string {
  const found = issues.map((issue) => innermost(issue, root));
  const first = found[0];
  if (first === undefined) throw new RangeError('refusalWords: no issues; allowed: at least one');
  const issue = misspelled(found, first, root) ?? first;
  if (issue.code === 'unrecognized_keys') {
    return sayRecords('unknownField', { place: place([...issue.path, issue.keys[0] ?? ''], root), allowed: issue.message });
  }
  return sayRecords('refused', { place: place(issue.path, root), value: valueWords(valueAt(root, issue.path)), allowed: issue.message });
}

/** A value in a few printable characters on one line. */
export function valueWords(value: unknown): string {
  if (value === undefined) return sayRecords('missing');
  if (value === null) return 'null';
  if (Array.isArray(value)) return sayRecords('listValue', { count: value.length });
  if (typeof value === 'string') return oneLine(JSON.stringify(shortened(value)));
  if (typeof value === 'number' || typeof value === 'boolean') return typeof value === 'number' ? saidNumber(value) : String(value);
  if (isEmpty(value)) return sayRecords('emptyObject');
  return typeof value === 'object' ? sayRecords('object') : sayRecords('aType', { type: typeof value });
}

/** Without line breaks and control characters, which a terminal would obey. */
export function oneLine(words: string): string {
  return words.replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Cf}]+/gu, ' ');
}

const isEmpty = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length === 0;

function shortened(words: string): string {
  return words.length > SHOWN_CHARACTERS ? `${words.slice(0, SHOWN_CHARACTERS)}…` : words;
}

/** A union's issue stands for the issues of the branch that was meant: the one with the fewest complaints about its own fields. */
function innermost(issue: Issue, root: unknown): Issue {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return issue;
  // Nothing says which was meant, so all are named.
  if (isEmpty(valueAt(root, issue.path))) return issue;
  let meant: Issue[] | undefined;
  let fewest = Number.POSITIVE_INFINITY;
  for (const branch of issue.errors) {
    const ownComplaints = branch.filter((inner) => inner.path.length <= 1).length;
    if (ownComplaints < fewest) {
      fewest = ownComplaints;
      meant = branch;
    }
  }
  const first = meant?.[0];
  if (first === undefined || (first.code === 'invalid_type' && first.path.length === 0)) return issue;
  return innermost({ ...first, path: [...issue.path, ...first.path] }, root);
}

/** A missing field beside an unknown one in the same object is a misspelling: name the unknown one. */
function misspelled(found: readonly Issue[], first: Issue, root: unknown): Issue | undefined {
  if (valueAt(root, first.path) !== undefined) return undefined;
  const parent = JSON.stringify(first.path.slice(0, -1));
  return found.find((issue) => issue.code === 'unrecognized_keys' && JSON.stringify(issue.path) === parent);
}

function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}

/**
 * `players[0].lessons[1].readings[2].travel.upMm (G5)`: the note follows, because people know their readings by it, and among many
 * players the label.
 */
function place(path: Path, root: unknown): string {
  let words = '';
  for (const key of path) {
    const name = shortened(String(key));
    words += typeof key === 'number' ? `[${key}]` : `${words === '' ? '' : '.'}${name}`;
  }
  const known = [labelAmongMany(path, root), noteOf(path, root)].filter((one) => one !== null).map(shortened);
  return oneLine(words === '' ? sayRecords('record') : `${words}${known.length === 0 ? '' : ` (${known.join(', ')})`}`);
}

function labelAmongMany(path: Path, root: unknown): string | null {
  const players = path[0] === 'players' && path.length > 2 ? valueAt(root, ['players']) : undefined;
  if (!Array.isArray(players) || players.length < 2 || path[2] === 'label') return null;
  const label = valueAt(root, [...path.slice(0, 2), 'label']);
  return typeof label === 'string' && label !== '' ? label : null;
}

function noteOf(path: Path, root: unknown): string | null {
  const at = path.lastIndexOf('readings');
  if (at < 0 || path.length <= at + 2 || path[at + 2] === 'note') return null;
  const note = valueAt(root, [...path.slice(0, at + 2), 'note']);
  return typeof note === 'string' ? note : null;
}
