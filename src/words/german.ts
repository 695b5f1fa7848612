/** Everything in German, by area; fetched only where German is spoken. */
import { APP } from './de/app';
import { BESIDE } from './de/beside';
import { CHART } from './de/chart';
import { CLASS } from './de/class';
import { CLI } from './de/cli';
import { CORE } from './de/core';
import { EXERCISES } from './de/exercises';
import { FILMING } from './de/filming';
import { FILMS } from './de/films';
import { HOLD } from './de/hold';
import { KEEPING } from './de/keeping';
import { KEPT } from './de/kept';
import { MARKING } from './de/marking';
import { MEASURE } from './de/measure';
import { MODELS } from './de/models';
import { NOTEBOOK } from './de/notebook';
import { OWN_ARCH } from './de/ownArch';
import { PAGE } from './de/page';
import { PICTURES } from './de/pictures';
import { PRINT } from './de/print';
import { READINGS } from './de/readings';
import { RECORDS } from './de/records';
import { SAYS } from './de/says';
import { SCANS } from './de/scans';
import { SHARE } from './de/share';
import { SHARING } from './de/sharing';
import { STAFF } from './de/staff';
import { STAGE } from './de/stage';
import { TABLES } from './de/tables';
import { TRY_OUTS } from './de/tryOuts';
import { WORKERS } from './de/workers';

export const GERMAN = {
  app: APP,
  beside: BESIDE,
  chart: CHART,
  class: CLASS,
  cli: CLI,
  core: CORE,
  exercises: EXERCISES,
  filming: FILMING,
  films: FILMS,
  hold: HOLD,
  keeping: KEEPING,
  kept: KEPT,
  marking: MARKING,
  measure: MEASURE,
  models: MODELS,
  notebook: NOTEBOOK,
  ownArch: OWN_ARCH,
  page: PAGE,
  pictures: PICTURES,
  print: PRINT,
  readings: READINGS,
  records: RECORDS,
  says: SAYS,
  scans: SCANS,
  share: SHARE,
  sharing: SHARING,
  staff: STAFF,
  stage: STAGE,
  tables: TABLES,
  tryOuts: TRY_OUTS,
  workers: WORKERS,
} as const;
