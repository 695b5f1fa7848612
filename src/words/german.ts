/** Everything in German, by area; fetched only where German is spoken. */
import { APP } from './de/app';
import { CORE } from './de/core';
import { EXERCISES } from './de/exercises';
import { FILMS } from './de/films';
import { KEEPING } from './de/keeping';
import { PRINT } from './de/print';
import { RECORDS } from './de/records';
import { SHARING } from './de/sharing';
import { STAFF } from './de/staff';
import { STAGE } from './de/stage';
import { TABLES } from './de/tables';

export const GERMAN = {
  app: APP,
  core: CORE,
  exercises: EXERCISES,
  films: FILMS,
  keeping: KEEPING,
  print: PRINT,
  records: RECORDS,
  sharing: SHARING,
  staff: STAFF,
  stage: STAGE,
  tables: TABLES,
} as const;
