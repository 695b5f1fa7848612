/** Checks a tree of sources against the layers of docs/architecture.md, which layers.json states for this and the lint. */
import { posix } from 'node:path';
import layersFile from './layers.json';
import { readSource, type SourceReading } from './sourceImports';

interface Layer {
  readonly layers: readonly string[];
  readonly packages: readonly string[];
  readonly packagesByFile?: Readonly<Record<string, readonly string[]>>;
}

/** Every fault of the tree in words; `sources` maps paths such as 'src/core/seat.ts' to their text. */
export function layerFaults(sources: ReadonlyMap<string, string>): string[] {
  const readings = new Map([...sources].map(([path, text]) => [path, readSource(path, text)]));
  const faults = [...readings].flatMap(([path, reading]) => fileFaults(path, reading));
  return [...faults, ...cycles(importGraph(readings)).map((cycle) => `cycle: ${cycle.join(' -> ')}`)];
}

const layers: Readonly<Record<string, Layer>> = layersFile;

/** What core may not see: the page, the clock, storage, the network, the process, and chance without a seed. */
const outsideCore = new Set([
  ...['window', 'document', 'navigator', 'self', 'globalThis', 'localStorage', 'sessionStorage', 'indexedDB', 'caches'],
  ...['Date', 'performance', 'setTimeout', 'setInterval', 'setImmediate', 'queueMicrotask', 'requestAnimationFrame'],
  ...['fetch', 'XMLHttpRequest', 'WebSocket', 'Worker', 'process', 'require', 'console', 'crypto', 'eval', 'Function'],
  // Plain Math: read by a key or taken apart, which would hide Math.random.
  ...['Math.random', 'Math'],
]);

function fileFaults(path: string, reading: SourceReading): string[] {
  const name = layerOf(path);
  const layer = name === null ? undefined : layers[name];
  if (name === null || !layer) return [`${path}: stands in no layer; allowed: ${Object.keys(layers).join(', ')}`];
  const faults = reading.unreadable.map((text) => `${path}: import that cannot be read: ${text}`);
  for (const specifier of reading.imports) {
    if (!mayImport(path, name, layer, specifier)) faults.push(`${path}: ${name} may not import ${specifier}`);
  }
  if (name === 'core') {
    for (const used of reading.names) if (outsideCore.has(used)) faults.push(`${path}: core may not use ${used}`);
  }
  return faults;
}

function mayImport(path: string, name: string, layer: Layer, specifier: string): boolean {
  if (specifier.startsWith('.')) {
    const target = layerOf(resolveRelative(path, specifier));
    return target === name || (target !== null && layer.layers.includes(target));
  }
  const ownPackages = layer.packagesByFile?.[path.slice(`src/${name}/`.length)] ?? [];
  return [...layer.packages, ...ownPackages].some((allowed) =>
    allowed.endsWith('*') ? specifier.startsWith(allowed.slice(0, -1)) : specifier === allowed || specifier.startsWith(`${allowed}/`),
  );
}

/** 'src/core/seat.ts' -> 'core'; 'models/rims/x.json' -> 'models', as any folder beside src; a loose file stands in none. */
function layerOf(path: string): string | null {
  const [top, second, third] = path.split('/');
  if (top === 'src') return second && third ? second : null;
  return top && second ? top : null;
}

const resolveRelative = (from: string, specifier: string): string =>
  posix.join(posix.dirname(from), specifier.replace(/[?#].*$/, ''));

function importGraph(readings: ReadonlyMap<string, SourceReading>): Map<string, string[]> {
  const fileAt = (path: string): string | undefined =>
    [path, `${path}.ts`, `${path}.tsx`, `${path}/index.ts`].find((candidate) => readings.has(candidate));
  const targets = (path: string, { imports }: SourceReading): string[] =>
    imports
      .filter((specifier) => specifier.startsWith('.'))
      .map((specifier) => fileAt(resolveRelative(path, specifier)))
      .filter((target) => target !== undefined);
  return new Map([...readings].map(([path, reading]) => [path, targets(path, reading)]));
}

/** Each cycle that a depth-first walk closes, first file repeated at the end; none if and only if the graph has none. */
function cycles(graph: ReadonlyMap<string, readonly string[]>): string[][] {
  const found: string[][] = [];
  const finished = new Set<string>();
  const trail: string[] = [];
  const walk = (path: string): void => {
    const start = trail.indexOf(path);
    if (start >= 0) found.push([...trail.slice(start), path]);
    if (start >= 0 || finished.has(path)) return;
    trail.push(path);
    graph.get(path)?.forEach(walk);
    trail.pop();
    finished.add(path);
  };
  [...graph.keys()].forEach(walk);
  return found;
}
