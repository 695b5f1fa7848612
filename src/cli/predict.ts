/** `npm run -s predict -- FILE.json`: the horn angles for a record, as one JSON object on standard output. */
import { analyse } from '../core/analyse';
import { sayCli } from '../words/cli';
import { runPredict } from './runPredict';

const result = await runPredict(process.argv.slice(2), process.stdin, analyse);
// A reader that has had enough is no fault; an output that cannot be written is said in one line, as all else.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return;
  process.exitCode = 1;
  process.stderr.write(`${sayCli('outputNotWritten', { code: error.code ?? sayCli('unknownReason') })}\n`);
});
// Where nobody hears, the status still tells.
process.stderr.on('error', () => undefined);
// The status is set, not exited with: a pipe must take all of the output first.
process.exitCode = result.status;
process.stderr.write(result.err);
// Even to write nothing can fail.
if (result.out !== '') process.stdout.write(result.out);
