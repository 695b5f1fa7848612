/** Finds English sentences in a source that should say everything through its messages, and messages said before the language is known. */
import ts from 'typescript';
import said from './saidInMessages.json';

export interface SaidIn {
  /** Sentences that stand in the source itself. */
  readonly sentences: readonly { readonly line: number; readonly words: string }[];
  /** "12: sayCore(…)", for each message said as the module is loaded. */
  readonly tooEarly: readonly string[];
}

export function saidIn(path: string, text: string): SaidIn {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true, path.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS);
  const sentences: { line: number; words: string }[] = [];
  const tooEarly: string[] = [];
  const line = (node: ts.Node): number => source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
  const visit = (node: ts.Node, inFunction: boolean): void => {
    if (isNotRead(node)) return;
    const words = textOf(node);
    if (words !== null && (isSentence(words) || (isShown(node) && /\p{L}{2}/u.test(words)))) sentences.push({ line: line(node), words: words.trim() });
    if (!inFunction && ts.isCallExpression(node) && SAYS.test(node.expression.getText(source))) tooEarly.push(`${line(node)}: ${node.expression.getText(source)}(…)`);
    ts.forEachChild(node, (child) => visit(child, inFunction || ts.isFunctionLike(node)));
  };
  visit(source, false);
  return { sentences, tooEarly };
}

const SAYS = /^(say[A-Z]\w*|dayWords|shortDayWords|fixed|saidNumber|decimalSign)$/;
/** Two words side by side, of which a name of a style, a path or a shape is none. */
const WORDS = /(?:^|[\s(“"])[\p{L}][\p{Ll}’']+[,.:;…]? +[\p{Ll}][\p{L}’']*(?:$|[\s.,:;!?)”"…])/u;
/** Attributes that browsers show or read out. */
const SHOWN = new Set(['aria-label', 'aria-description', 'aria-roledescription', 'title', 'alt', 'placeholder', 'label', 'legend', 'hint']);
/** Attributes that only the browser reads. */
const UNREAD = /^(class(Name)?|style|transform|d|viewBox|points|font\w*|stroke\w*|id|key|href|data-.*|aria-(controls|describedby|labelledby|keyshortcuts))$/;

/** A colour of a style sheet has words too. */
const STYLE = /^[a-z-]+\(/;

const isSentence = (text: string): boolean => !STYLE.test(text) && WORDS.test(text.replace(/\$\{…\}/g, '0'));

/** Units and signs that are the same in every language. */
const UNITS = /^[\s·°%]*(mm|kPa|N·mm|N|Hz|cents)?[\s·°%]*$/;

/** What stands between tags, or in an attribute that is shown. */
function isShown(node: ts.Node): boolean {
  if (ts.isJsxText(node)) return !UNITS.test(node.text);
  return ts.isStringLiteral(node) && ts.isJsxAttribute(node.parent) && SHOWN.has(node.parent.name.getText());
}

/** Types and imports; what is thrown at programmers (an error named after its function is, too); attributes for the browser. */
function isNotRead(node: ts.Node): boolean {
  if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeNode(node)) return true;
  if (ts.isThrowStatement(node)) return true;
  if (isDescription(node) || isName(node)) return true;
  if (ts.isNewExpression(node)) return /^new \w*Error\(['`]\w+: /.test(node.getText());
  return ts.isJsxAttribute(node) && UNREAD.test(node.name.getText());
}

/** A field's description, which goes into docs/record.schema.json, in English. */
function isDescription(node: ts.Node): boolean {
  const { parent } = node;
  if (!ts.isStringLiteralLike(node) && !ts.isTemplateExpression(node)) return false;
  if (ts.isNewExpression(parent) || !ts.isCallExpression(parent) || parent.expression === node) return false;
  const called = parent.expression.getText().split('.').at(-1)!;
  return node.getSourceFile().fileName.startsWith('src/records/') && said.describing.includes(called);
}

/** Names by which a column is known in files of either language. */
function isName(node: ts.Node): boolean {
  return ts.isPropertyAssignment(node) && node.name.getText() === 'names' && ts.isArrayLiteralExpression(node.initializer);
}

function textOf(node: ts.Node): string | null {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node) || ts.isJsxText(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return null;
  return node.head.text + node.templateSpans.map(({ literal }) => `\${…}${literal.text}`).join('');
}
