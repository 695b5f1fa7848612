/** Hooks of Node's module loading, as `module.register` takes them. */
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

/** Node sees no names in how these packages are bundled: those that are asked for are read off the whole. */
const NAMES = { '@tonejs/midi': ['Midi'], numeric: ['solve'] };

const find = createRequire(import.meta.url).resolve;
const named = new Map(
  Object.entries(NAMES).map(([name, names]) => {
    const source = `import whole from '${pathToFileURL(find(name)).href}'; export const { ${names.join(', ')} } = whole; export { whole as default };`;
    return [name, `data:text/javascript,${encodeURIComponent(source)}`];
  }),
);

export function resolve(specifier, context, next) {
  return named.has(specifier) ? { url: named.get(specifier), shortCircuit: true } : next(specifier, context);
}

/** Style sheets, which only a page can use, are empty. */
export function load(url, context, next) {
  return url.endsWith('.css') ? { format: 'module', source: '', shortCircuit: true } : next(url, context);
}
