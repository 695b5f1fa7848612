/**
 * Unpacks the Chromium that the npm package @sparticuz/chromium carries, so that browser tests run on a machine that has
 * neither a browser nor the libraries and fonts a browser wants.
 */
import { execFile } from 'node:child_process';
import { accessSync, constants, createReadStream, createWriteStream, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { chmod, mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import type { Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { promisify } from 'node:util';
import { createBrotliDecompress } from 'node:zlib';

export interface UnpackedChromium {
  readonly executablePath: string;
  /** What the environment must hold for the browser to find its libraries and fonts. */
  readonly env: Readonly<Record<string, string>>;
}

/**
 * The unpacked browser; about 2 s the first time, at once afterwards. Safe when several processes call it together: each
 * unpacks into a folder of its own and the first to finish renames it into place.
 */
export async function unpackChromium(): Promise<UnpackedChromium> {
  const packageFolder = findPackage();
  const { version } = JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8')) as { version: string };
  const target = join(cacheFolder(), `chromium-${version}-${process.arch}`);
  if (!existsSync(target)) await unpackInto(target, join(packageFolder, 'bin'));
  return {
    executablePath: join(target, 'chromium'),
    env: { LD_LIBRARY_PATH: join(target, 'lib'), FONTCONFIG_FILE: join(target, 'fonts.conf') },
  };
}

const run = promisify(execFile);

async function unpackInto(target: string, archives: string): Promise<void> {
  const unfinished = `${target}.${process.pid}.${Date.now()}`;
  await mkdir(unfinished, { recursive: true });
  try {
    await Promise.all([
      inflate(join(archives, 'chromium.br'), createWriteStream(join(unfinished, 'chromium'))),
      // SwiftShader's libraries are looked for beside the executable; lib/ and fonts/ come out of the other two.
      ...['swiftshader', 'al2023', 'fonts'].map((name) => untar(join(archives, `${name}.tar.br`), unfinished)),
    ]);
    await chmod(join(unfinished, 'chromium'), 0o755);
    await writeFile(join(unfinished, 'fonts.conf'), fontConfiguration(target));
    await rename(unfinished, target);
  } catch (error) {
    await rm(unfinished, { recursive: true, force: true });
    // Another process may have put the same folder in place first; then that one is as good.
    if (!existsSync(target)) throw error;
  }
}

function inflate(archive: string, into: Writable): Promise<void> {
  const large = 2 ** 21; // bytes at a time; the default of 16 KiB makes it several times slower
  return pipeline(createReadStream(archive, { highWaterMark: large }), createBrotliDecompress({ chunkSize: large }), into);
}

/** By way of a file: tar stops reading at the end mark, which a pipe into it would take for a failure. */
async function untar(archive: string, folder: string): Promise<void> {
  const plain = join(folder, `${basename(archive)}.plain`);
  await inflate(archive, createWriteStream(plain));
  await run('tar', ['-xf', plain, '--no-same-owner', '-C', folder]);
  await rm(plain);
}

/** Only the fonts that came along: the same text on every machine, and text at all on one without fonts. */
function fontConfiguration(target: string): string {
  return `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${target}/fonts</dir>
  <cachedir>${target}/fonts-cache</cachedir>
</fontconfig>
`;
}

function findPackage(): string {
  const entry = createRequire(import.meta.url).resolve('@sparticuz/chromium');
  for (let folder = dirname(entry); ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'bin', 'chromium.br'))) return folder;
    if (folder === dirname(folder)) throw new Error(`@sparticuz/chromium at ${entry} holds no bin/chromium.br; run npm ci`);
  }
}

/** node_modules/.cache, or the system's folder for temporary files when that cannot be written. */
function cacheFolder(): string {
  const preferred = resolve(import.meta.dirname, '../../../node_modules/.cache/rimpath');
  try {
    mkdirSync(preferred, { recursive: true });
    accessSync(preferred, constants.W_OK);
    return preferred;
  } catch {
    return join(tmpdir(), `rimpath-${process.getuid?.() ?? 'user'}`);
  }
}
