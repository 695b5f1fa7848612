/** Reads from a TypeScript source what it imports and which names of its surroundings it uses. */
import ts from 'typescript';

export interface SourceReading {
  /** Every specifier: static, re-exported, type-only, dynamic, `import.meta.glob`, `new URL(…, import.meta.url)`. */
  readonly imports: readonly string[];
  /** Imports whose specifier is not written out, as their text. */
  readonly unreadable: readonly string[];
  /** Identifiers used as values, each once; `Math` as `Math.floor` and so on, as plain `Math` when used in any other way. */
  readonly names: ReadonlySet<string>;
}

export function readSource(path: string, text: string): SourceReading {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const imports: string[] = [];
  const unreadable: string[] = [];
  const names = new Set<string>();
  // JSX is compiled to calls into react/jsx-runtime, though no import says so.
  if (path.endsWith('.tsx')) imports.push('react');

  const take = (specifier: ts.Node | undefined, whole: ts.Node): void => {
    if (specifier && ts.isStringLiteralLike(specifier)) imports.push(specifier.text);
    else if (specifier && ts.isArrayLiteralExpression(specifier)) specifier.elements.forEach((one) => take(one, whole));
    else unreadable.push(whole.getText());
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) take(node.moduleSpecifier, node);
    else if (ts.isExportDeclaration(node) && node.moduleSpecifier) take(node.moduleSpecifier, node);
    else if (ts.isExternalModuleReference(node)) take(node.expression, node);
    else if (ts.isImportTypeNode(node)) take(ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined, node);
    else if (ts.isCallExpression(node) && loadsModules(node.expression)) take(node.arguments[0], node);
    else if (ts.isNewExpression(node) && isOwnUrl(node)) take(node.arguments?.[0], node);
    else if (ts.isIdentifier(node) && isValue(node)) names.add(withMember(node));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return { imports, unreadable, names };
}

function loadsModules(called: ts.Expression): boolean {
  return called.kind === ts.SyntaxKind.ImportKeyword || called.getText() === 'import.meta.glob';
}

/** `new URL('./worker.ts', import.meta.url)`, by which workers and assets are reached. */
function isOwnUrl(node: ts.NewExpression): boolean {
  return node.expression.getText() === 'URL' && node.arguments?.[1]?.getText() === 'import.meta.url';
}

function isValue(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isQualifiedName(parent) || ts.isTypeReferenceNode(parent)) return false;
  if (ts.isShorthandPropertyAssignment(parent)) return true;
  // A declaration's own name, a key of an object or of a type, a parameter, an import's name.
  return !('name' in parent && parent.name === node) && !('propertyName' in parent && parent.propertyName === node);
}

function withMember(node: ts.Identifier): string {
  const { parent } = node;
  return node.text === 'Math' && ts.isPropertyAccessExpression(parent) ? `Math.${parent.name.text}` : node.text;
}
