/** The record file's JSON Schema (draft 2020-12) as docs/record.schema.json holds it. */
import * as z from 'zod/mini';
import { fileSchema } from '../records/schema';

const TITLE = 'Rimpath record file, versions 2 to 5';
const CROSS_CHECKS =
  'Conditions between fields, named in the descriptions, are checked by the program and cannot be said in JSON Schema. ' +
  'Lengths in mm, angles in degrees, force in newtons, modulus in kPa; signs and frame: docs/model.md.';

export function recordJsonSchemaText(): string {
  const { $schema, description, ...rest } = z.toJSONSchema(fileSchema, { reused: 'inline' });
  const schema = { $schema, title: TITLE, description: `${description ?? ''}. ${CROSS_CHECKS}`, ...rest };
  return `${JSON.stringify(schema, null, 2)}\n`;
}
