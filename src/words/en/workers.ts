/** Where work could not go on beside the page, or broke off. */
export const WORKERS = {
  // Stands behind "This could not be worked out:".
  none: 'this browser lets no work go on beside the page',
  calledOff: 'it was called off',
  noFilmWorker: 'This browser lets no work go on beside the page, so it cannot read films. Pictures can be measured all the same.',
  filmWorkerDied:
    'Reading the film broke off: the browser ended it, perhaps for want of memory. Open the film again; a shorter or smaller one needs less.',
  noSolidWorker: 'This browser lets no work go on beside the page, so nothing can be made to print.',
  solidWorkerDied: 'Making it broke off: the browser ended the work, perhaps for want of memory.',
} as const;
