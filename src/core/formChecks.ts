import { sayCore } from '../words/core';

/** The one shape of complaint about numbers that make no arch: field, value and what is allowed. */
export function tooTight(field: string, value: string, allowed: string): RangeError {
  return new RangeError(sayCore('outOfRange', { field, value, allowed }));
}
