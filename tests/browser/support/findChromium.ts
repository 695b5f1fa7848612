/** Which browser the tests drive: $CHROMIUM, else one that is installed, else the one an npm package carries. */
import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { unpackChromium } from './unpackChromium';

export interface FoundChromium {
  readonly executablePath: string;
  readonly env: Readonly<Record<string, string>>;
  readonly source: 'environment' | 'installed' | 'package';
}

/** Throws when $CHROMIUM names a file that cannot be run: a wish that cannot be met is not passed over in silence. */
export async function findChromium(environment: NodeJS.ProcessEnv = process.env): Promise<FoundChromium> {
  const wished = environment['CHROMIUM'];
  if (wished) {
    if (!canRun(wished)) throw new Error(`CHROMIUM is '${wished}'; allowed: the path of a program that can be run`);
    return { executablePath: wished, env: {}, source: 'environment' };
  }
  const installed = installedPlaces(environment).find(canRun);
  if (installed) return { executablePath: installed, env: {}, source: 'installed' };
  return { ...(await unpackChromium()), source: 'package' };
}

const programNames = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome'];
const usualPlaces = [
  '/opt/google/chrome/chrome',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

function installedPlaces(environment: NodeJS.ProcessEnv): string[] {
  const folders = (environment['PATH'] ?? '').split(delimiter).filter(Boolean);
  return [...programNames.flatMap((name) => folders.map((folder) => join(folder, name))), ...usualPlaces];
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
