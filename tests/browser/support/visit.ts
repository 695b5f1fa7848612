/** Opens pages in one shared Chromium that reaches nothing but this machine, and writes down what each page did. */
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core';
import { findChromium } from './findChromium';

export interface VisitOptions {
  /** CSS pixels; 1440 × 900 by default. */
  readonly width?: number;
  readonly height?: number;
  readonly deviceScaleFactor?: number;
  readonly reducedMotion?: 'reduce' | 'no-preference';
  readonly colorScheme?: 'light' | 'dark';
  readonly hasTouch?: boolean;
  /** The browser's own language, as in 'de-DE'; English by default. */
  readonly locale?: string;
  /** false: a browser that has no WebGL at all. */
  readonly webgl?: boolean;
  /** A service worker puts the whole app by: pages that are not about that are quicker without. 'block' by default. */
  readonly serviceWorkers?: 'allow' | 'block';
  /** Runs in the page before its own scripts. */
  readonly before?: (page: Page) => Promise<void>;
}

export interface Visit {
  readonly page: Page;
  /** Console messages of level error and uncaught exceptions, in order. */
  readonly consoleErrors: readonly string[];
  /** Every address the page asked for, in order. */
  readonly requests: readonly string[];
  /** Those among them that were not on the page's own server; each was refused. */
  readonly foreignRequests: readonly string[];
  close(): Promise<void>;
}

/** Opens `address` in a fresh profile. Throws with the server's answer when that is not a success. */
export async function visit(address: string, options: VisitOptions = {}): Promise<Visit> {
  const browser = await browserWith(options.webgl ?? true);
  const context = await browser.newContext(contextOptions(options));
  const page = await context.newPage();
  // A frame drawn in software can take seconds on a busy machine.
  page.setDefaultTimeout(PATIENCE_MS);
  const consoleErrors: string[] = [];
  const requests: string[] = [];
  const foreignRequests: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') consoleErrors.push(`${message.text()} (${message.location().url})`);
  });
  page.on('pageerror', (error) => consoleErrors.push(error.stack ?? error.message));

  const note = (url: string): boolean => {
    requests.push(url);
    const local = isLocal(url, address);
    if (!local) foreignRequests.push(url);
    return local;
  };
  await context.route('**/*', (route) => (note(route.request().url()) ? route.continue() : route.abort('blockedbyclient')));
  await context.routeWebSocket(/.*/, (socket) => void (note(socket.url()) ? socket.connectToServer() : socket.close()));

  await options.before?.(page);
  const response = await page.goto(address, { waitUntil: 'load', timeout: 180_000 });
  if (response && !response.ok()) {
    const answer = await response.text();
    await context.close();
    throw new Error(`${address} answered ${response.status()}: ${answer}`);
  }
  return { page, consoleErrors, requests, foreignRequests, close: () => context.close() };
}

/** Closes every browser that `visit` started in this process, and does what `afterBrowsers` was given. */
export async function closeBrowsers(): Promise<void> {
  const started = [...browsers.values()];
  browsers.clear();
  await Promise.all(started.map(async (browser) => (await browser).close()));
  await Promise.all(endings.splice(0).map((end) => end()));
}

/** To be done once the browsers are closed: what only their pages needed is put away. */
export function afterBrowsers(end: () => Promise<void>): void {
  endings.push(end);
}
const endings: (() => Promise<void>)[] = [];

/** How long an action may wait, ms. */
const PATIENCE_MS = 120_000;

const browsers = new Map<boolean, Promise<Browser>>();

function browserWith(webgl: boolean): Promise<Browser> {
  let browser = browsers.get(webgl);
  if (!browser) {
    browser = launch(webgl);
    browsers.set(webgl, browser);
  }
  return browser;
}

async function launch(webgl: boolean): Promise<Browser> {
  const { executablePath, env } = await findChromium();
  const graphics = webgl
    ? ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist']
    : ['--disable-gpu', '--disable-3d-apis'];
  return chromium.launch({
    executablePath,
    // playwright-core adds flags of the same kind; these hold even should it stop doing so.
    args: [...graphics, ...stayLocal, '--no-sandbox', '--hide-scrollbars', '--font-render-hinting=none'],
    env: { ...process.env, ...env },
    timeout: 120_000,
  });
}

/** The browser's own errands on the network: off, and no name but this machine's resolves. */
const stayLocal = [
  '--disable-background-networking',
  '--disable-client-side-phishing-detection',
  '--disable-component-update',
  '--disable-default-apps',
  '--disable-domain-reliability',
  '--disable-quic',
  '--disable-sync',
  '--dns-prefetch-disable',
  '--metrics-recording-only',
  '--no-default-browser-check',
  '--no-first-run',
  '--no-pings',
  '--no-proxy-server',
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost',
];

function contextOptions(options: VisitOptions): BrowserContextOptions {
  return {
    viewport: { width: options.width ?? 1440, height: options.height ?? 900 },
    deviceScaleFactor: options.deviceScaleFactor ?? 1,
    reducedMotion: options.reducedMotion ?? 'no-preference',
    colorScheme: options.colorScheme ?? 'light',
    hasTouch: options.hasTouch ?? false,
    locale: options.locale ?? 'en-GB',
    serviceWorkers: options.serviceWorkers ?? 'block',
  };
}

/** The page's own host and port, whatever the scheme, and what needs no server. */
function isLocal(url: string, address: string): boolean {
  const { protocol, host } = new URL(url);
  return ['data:', 'blob:', 'about:'].includes(protocol) || host === new URL(address).host;
}
