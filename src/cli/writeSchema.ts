/** Writes docs/record.schema.json from the record's schema: `npm run schema`. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { recordJsonSchemaText } from './recordJsonSchema';

const target = fileURLToPath(new URL('../../docs/record.schema.json', import.meta.url));
writeFileSync(target, recordJsonSchemaText());
process.stdout.write(`${target}\n`);
