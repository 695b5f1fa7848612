import { sayCore } from '../words/core';

/**
 * A part of a file's name from a label that may hold anything: letters and digits of any script, joined by hyphens, so that every system
 * takes it; `fallback` where nothing is left, or a name that a system keeps for its devices.
 */
export function fileNamePart(label: string, fallback = sayCore('player')): string {
  const tidy = label.normalize('NFC').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/gu, '');
  const part = [...tidy].slice(0, LONGEST_PART).join('').replace(/-+$/u, '');
  return part === '' || RESERVED.test(part) ? fallback : part;
}

/** Characters; with a date and an ending well below what systems allow. */
const LONGEST_PART = 40;
/** Windows keeps these names for devices, whatever the ending. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
