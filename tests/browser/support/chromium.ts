/** What a browser test starts from: `openPage` opens the built app; every browser is closed when the file is done. */
import { afterAll, inject } from 'vitest';
import { closeBrowsers, visit, type Visit, type VisitOptions } from './visit';

export type { Visit } from './visit';

export interface OpenOptions extends VisitOptions {
  /** Path and query below the app's address; '' by default. */
  readonly path?: string;
}

/** Opens the app as built for publishing; the first call of a run waits for the build. */
export function openPage({ path = '', ...options }: OpenOptions = {}): Promise<Visit> {
  return visit(new URL(path, inject('appAddress')).href, options);
}

/** Opens a page of the test's own, without the app. */
export function openHtml(html: string, options: VisitOptions = {}): Promise<Visit> {
  return visit(`data:text/html;charset=utf-8,${encodeURIComponent(html)}`, options);
}

/** The folder that holds the built app, once it is built. */
export async function builtApp(): Promise<string> {
  const response = await fetch(inject('appAddress'));
  if (!response.ok) throw new Error(await response.text());
  return inject('appFolder');
}

afterAll(closeBrowsers);
