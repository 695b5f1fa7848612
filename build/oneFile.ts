/**
 * The second pass of the build: the whole app as one HTML page that opens from a disk or an attachment, beside the app. Scripts, styles,
 * fonts and workers stand in it; its one script runs by its hash, and nothing can be fetched. The app puts a picture into it (src/app/oneFile.ts).
 */
import react from '@vitejs/plugin-react';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { type Plugin, type Rolldown, build } from 'vite';
import { parsedMessages } from './parsedMessages.ts';
import { ONE_FILE_NAME, PICTURE_OPENING } from '../src/app/oneFilePage.ts';

/** In the one file the second stands in the first's place: measuring, the own arch and their workers are left out, and the page says so. */
const INSTEAD = [
  ['src/app/lazyMeasure.tsx', 'src/app/measureLeftOut.tsx'],
  ['src/app/lazyOwnArch.tsx', 'src/app/ownArchLeftOut.tsx'],
  ['src/app/lazyScan.tsx', 'src/app/ownArchLeftOut.tsx'],
  ['src/app/scans/reopenScan.ts', 'src/app/scans/reopenScanLeftOut.ts'],
] as const;

export function oneFile(): Plugin {
  let root = '';
  return {
    name: 'one-file',
    apply: 'build',
    configResolved: (config) => {
      root = config.root;
    },
    // With the app's own files, so that whoever lists them afterwards (as for use without a network) finds this one too.
    async generateBundle() {
      this.emitFile({ type: 'asset', fileName: ONE_FILE_NAME, source: await onePage(root) });
    },
  };
}

async function onePage(root: string): Promise<string> {
  const built = (await build({
    root,
    configFile: false,
    base: './',
    logLevel: 'warn',
    plugins: [react(), parsedMessages(), leaveOut(root), workersInside()],
    // A module's worker cannot be started from memory by a page from a disk.
    worker: { format: 'iife', plugins: () => [parsedMessages()] },
    build: {
      write: false,
      copyPublicDir: false,
      target: 'es2022',
      assetsInlineLimit: () => true,
      cssCodeSplit: false,
      modulePreload: false,
      reportCompressedSize: false,
      // kB: everything is in it.
      chunkSizeWarningLimit: 8000,
      rolldownOptions: { output: { codeSplitting: false } },
    },
  })) as Rolldown.RolldownOutput;
  return joined(built.output, root);
}

function joined(output: Rolldown.RolldownOutput['output'], root: string): string {
  const scripts = output.filter((one) => one.type === 'chunk');
  const assets = output.filter((one) => one.type === 'asset');
  const page = assets.filter(({ fileName }) => fileName.endsWith('.html'));
  const styles = assets.filter(({ fileName }) => fileName.endsWith('.css'));
  const rest = assets.filter((one) => !page.includes(one) && !styles.includes(one));
  if (scripts.length !== 1 || page.length !== 1 || rest.length > 0) {
    throw new Error(`one file: ${[...scripts, ...page, ...rest].map(({ fileName }) => fileName).join(', ')}; allowed: one script, one page and styles`);
  }
  // Neither may end its own element, and a browser reads line ends as one kind, which the hash has to agree with.
  const script = scripts[0]!.code.replace(/\r\n?/g, '\n').replace(/<(\/script|!--)/gi, '\\x3C$1');
  const style = styles.map(({ source }) => String(source)).join('\n');
  if (/<\/style/i.test(style)) throw new Error('one file: a style holds </style; allowed: styles that do not');
  const icon = readFileSync(join(root, 'public/favicon.svg')).toString('base64');
  return [
    [/<script type="module"[^>]*><\/script>\s*/, ''],
    [/<link rel="stylesheet"[^>]*>\s*/, ''],
    // For a page that is installed; this one is not.
    [/<link rel="apple-touch-icon"[^>]*>\s*/, ''],
    [/href="\.\/favicon\.svg"/, `href="data:image/svg+xml;base64,${icon}"`],
    [/<meta charset="utf-8" \/>/, `<meta charset="utf-8" />\n    <meta http-equiv="Content-Security-Policy" content="${policy(script)}" />`],
    ['</head>', `<style>${style}</style>\n  </head>`],
    ['</body>', `${PICTURE_OPENING}</script>\n    <script type="module">${script}</script>\n  </body>`],
  ].reduce((text: string, [place, put]) => {
    if (text.split(place as string | RegExp).length !== 2) throw new Error(`one file: ${String(place)} stands in index.html; allowed: once`);
    return text.replace(place as string | RegExp, () => put as string);
  }, String(page[0]!.source));
}

function policy(script: string): string {
  return [
    "default-src 'none'",
    `script-src 'sha256-${createHash('sha256').update(script).digest('base64')}'`,
    // The notation and the graphics set styles on what they draw.
    "style-src 'unsafe-inline'",
    'img-src data: blob:',
    'font-src data:',
    'worker-src blob:',
    // Saved figures read their fonts back; a page from a disk reaches nothing else.
    'connect-src data: blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

function leaveOut(root: string): Plugin {
  const instead = new Map(INSTEAD.map(([from, to]) => [resolve(root, from), resolve(root, to)]));
  return {
    name: 'one-file-leave-out',
    enforce: 'pre',
    async resolveId(source, importer, options) {
      const found = await this.resolve(source, importer, { ...options, skipSelf: true });
      return found === null ? null : (instead.get(found.id) ?? null);
    },
  };
}

const WORKER = /new Worker\(new URL\('(?<address>[^']+)', import\.meta\.url\), \{ type: 'module', name: '(?<name>[^']+)' \}\)/g;

/** A worker's own file cannot be reached from a disk: its text is carried along and started from memory. */
function workersInside(): Plugin {
  return {
    name: 'one-file-workers',
    enforce: 'pre',
    transform(code, id) {
      if (!/\/src\/.*\.tsx?$/.test(id) || !code.includes('new Worker(')) return null;
      const imports: string[] = [];
      const changed = code.replace(WORKER, (_, address: string, name: string) => {
        imports.push(`import Inside${imports.length} from '${address}?worker&inline';`);
        return `new Inside${imports.length - 1}({ name: '${name}' })`;
      });
      if (changed.includes('new Worker(')) throw new Error(`one file: a worker in ${id} is started in another way; allowed: as in ${String(WORKER)}`);
      return { code: `${imports.join('\n')}\n${changed}`, map: null };
    },
  };
}
