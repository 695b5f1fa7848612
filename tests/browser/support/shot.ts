/**
 * Takes a picture of a running page: npx tsx tests/browser/support/shot.ts URL OUT.png WIDTH HEIGHT [waitMs]
 * Console errors and requests that left the page's server are printed; the exit status is 1 if there were any.
 */
import { closeBrowsers, visit } from './visit';

const [address, out, width, height, wait = '1000'] = process.argv.slice(2);
if (!address || !out || !(Number(width) > 0) || !(Number(height) > 0) || !(Number(wait) >= 0)) {
  console.error('usage: npx tsx tests/browser/support/shot.ts URL OUT.png WIDTH HEIGHT [waitMs]');
  process.exit(2);
}

const { page, consoleErrors, foreignRequests } = await visit(address, { width: Number(width), height: Number(height) });
await page.waitForTimeout(Number(wait));
await page.screenshot({ path: out });
await closeBrowsers();
for (const error of consoleErrors) console.error(`console error: ${error}`);
for (const url of foreignRequests) console.error(`refused: ${url}`);
process.exitCode = consoleErrors.length + foreignRequests.length > 0 ? 1 : 0;
