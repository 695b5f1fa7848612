/** All messages in both languages, and how the sources say them. */
import ts from 'typescript';
import { IntlMessageFormat } from 'intl-messageformat';
import { GERMAN } from '../../src/words/german';
import { APP } from '../../src/words/en/app';
import { BESIDE } from '../../src/words/en/beside';
import { CHART } from '../../src/words/en/chart';
import { CLASS } from '../../src/words/en/class';
import { CLI } from '../../src/words/en/cli';
import { CORE } from '../../src/words/en/core';
import { EXERCISES } from '../../src/words/en/exercises';
import { FILMING } from '../../src/words/en/filming';
import { FILMS } from '../../src/words/en/films';
import { HOLD } from '../../src/words/en/hold';
import { KEEPING } from '../../src/words/en/keeping';
import { KEPT } from '../../src/words/en/kept';
import { MARKING } from '../../src/words/en/marking';
import { MEASURE } from '../../src/words/en/measure';
import { MODELS } from '../../src/words/en/models';
import { NOTEBOOK } from '../../src/words/en/notebook';
import { OWN_ARCH } from '../../src/words/en/ownArch';
import { PAGE } from '../../src/words/en/page';
import { PICTURES } from '../../src/words/en/pictures';
import { PRINT } from '../../src/words/en/print';
import { READINGS } from '../../src/words/en/readings';
import { RECORDS } from '../../src/words/en/records';
import { SAYS } from '../../src/words/en/says';
import { SCANS } from '../../src/words/en/scans';
import { SHARE } from '../../src/words/en/share';
import { SHARING } from '../../src/words/en/sharing';
import { STAFF } from '../../src/words/en/staff';
import { STAGE } from '../../src/words/en/stage';
import { TABLES } from '../../src/words/en/tables';
import { TRY_OUTS } from '../../src/words/en/tryOuts';
import { WORKERS } from '../../src/words/en/workers';

export const ENGLISH = {
  app: APP,
  beside: BESIDE,
  chart: CHART,
  class: CLASS,
  cli: CLI,
  core: CORE,
  exercises: EXERCISES,
  filming: FILMING,
  films: FILMS,
  hold: HOLD,
  keeping: KEEPING,
  kept: KEPT,
  marking: MARKING,
  measure: MEASURE,
  models: MODELS,
  notebook: NOTEBOOK,
  ownArch: OWN_ARCH,
  page: PAGE,
  pictures: PICTURES,
  print: PRINT,
  readings: READINGS,
  records: RECORDS,
  says: SAYS,
  scans: SCANS,
  share: SHARE,
  sharing: SHARING,
  staff: STAFF,
  stage: STAGE,
  tables: TABLES,
  tryOuts: TRY_OUTS,
  workers: WORKERS,
} as const;
export type Area = keyof typeof ENGLISH;

export const AREAS = Object.keys(ENGLISH) as Area[];
export const inGerman: Readonly<Record<Area, Readonly<Record<string, string>>>> = GERMAN;
export const inEnglish: Readonly<Record<Area, Readonly<Record<string, string>>>> = ENGLISH;

/** The arguments of a message, sorted, of choices with what there is to choose: "way: one of other, up". Throws where it cannot be read. */
export function argumentsOf(message: string): string[] {
  const found = new Set<string>();
  const look = (elements: readonly Element[]): void => {
    for (const element of elements) {
      if (!('value' in element) || element.type === LITERAL) continue;
      const { options } = element;
      if (options === undefined) found.add(element.value);
      else {
        const names = Object.keys(options).sort();
        found.add(`${element.value}: ${element.type === PLURAL ? 'plural' : `one of ${names.join(', ')}`}`);
        if (!names.includes('other')) throw new RangeError(`${element.value} without other: ${message}`);
        for (const option of Object.values(options)) look(option.value);
      }
    }
  };
  look(new IntlMessageFormat(message, 'en', undefined, { ignoreTag: true }).getAst() as readonly Element[]);
  return [...found].sort();
}

/** What the library's parts of a message have in common; the kinds are numbered there. */
interface Element {
  readonly type: number;
  readonly value: string;
  readonly options?: Readonly<Record<string, { readonly value: readonly Element[] }>>;
}
const LITERAL = 0;
const PLURAL = 6;

/** What only a language's grammar asks for: English does without. */
const GRAMMAR = ['order'];

export const namesOf = (message: string): string[] => [...new Set(argumentsOf(message).map((one) => one.replace(/:.*/s, '')))]
  .filter((name) => !GRAMMAR.includes(name))
  .sort();

/** One `sayArea('key', { … })` of a source; `names` null where the values are not written out there. */
export interface SaidMessage {
  readonly where: string;
  readonly speaker: string;
  readonly key: string;
  readonly names: readonly string[] | null;
}

export function messagesSaid(path: string, text: string): SaidMessage[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true, path.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS);
  const found: SaidMessage[] = [];
  const visit = (node: ts.Node): void => {
    ts.forEachChild(node, visit);
    if (!ts.isCallExpression(node) || !ts.isIdentifier(node.expression) || !/^say[A-Z]/.test(node.expression.text)) return;
    const [key, values] = node.arguments;
    if (key === undefined || !ts.isStringLiteral(key)) return;
    const where = `${path}:${source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1}`;
    found.push({ where, speaker: node.expression.text, key: key.text, names: values === undefined ? [] : namesIn(values) });
  };
  visit(source);
  return found;
}

function namesIn(values: ts.Expression): string[] | null {
  if (!ts.isObjectLiteralExpression(values)) return null;
  const names: string[] = [];
  for (const property of values.properties) {
    if (ts.isSpreadAssignment(property) || property.name === undefined) return null;
    const name = property.name.getText();
    if (!GRAMMAR.includes(name)) names.push(name);
  }
  return names.sort();
}

/** Which keys a source names: texts in quotes, and texts with a hole in them, as in `${id}Label`. */
export function keysNamedIn(path: string, text: string): (key: string) => boolean {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true, path.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS);
  const quoted = new Set<string>();
  const holed: RegExp[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isStringLiteral(node)) quoted.add(node.text);
    if (ts.isTemplateExpression(node) && isSaid(node)) {
      holed.push(new RegExp(`^${[node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('[\\w-]+')}$`));
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return (key) => quoted.has(key) || holed.some((pattern) => pattern.test(key));
}

const isSaid = ({ parent }: ts.Node): boolean => ts.isCallExpression(parent) && /^say[A-Z]/.test(parent.expression.getText());
