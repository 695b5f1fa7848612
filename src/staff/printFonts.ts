/** Addresses of the fonts that the printed staff names, for files that are to stand alone. */
import musicFontUrl from '@vexflow-fonts/gonville/gonville.woff2?url';
import signsFontUrl from './signs/signs.woff?url';

export const staffFonts = [
  { family: 'Gonville', url: musicFontUrl },
  { family: 'Rimpath Signs', url: signsFontUrl },
] as const;
