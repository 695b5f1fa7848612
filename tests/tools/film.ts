/** `npm run -s film -- --film FILE --marks FILE.json ...`: what films on the disk say of each note, measured in the tests' browser. */
import { resolve } from 'node:path';
import { closeBrowsers } from '../browser/support/visit';
import { openMeasurer } from '../support/films/measureFilms';
import { filmCommand, filmCsv } from './runFilm';

const command = filmCommand(process.argv.slice(2));
if (command.kind === 'refused') {
  process.stderr.write(`${command.message}\n`);
  process.exitCode = 2;
} else {
  const measurer = await openMeasurer();
  try {
    const told = await measurer.measure(command.files.map((name) => resolve(name)), command.asked);
    if (told.kind === 'refused') {
      process.stderr.write(`${command.files[told.film]}: ${told.words}\n`);
      process.exitCode = 2;
    } else process.stdout.write(command.csv ? filmCsv(told) : `${JSON.stringify(told, null, 1)}\n`);
  } finally {
    await measurer.close();
    await closeBrowsers();
  }
}
