import { fixed } from '../../words/numbers';

/** "3.1 MB": decimal megabytes, as file lists count them; never 0 for something that is there. */
export function megabytes(bytes: number): string {
  const mega = bytes / 1e6;
  const places = mega < 9.95 ? 1 : 0;
  return `${fixed(Math.max(0.1, mega), places)} MB`;
}
