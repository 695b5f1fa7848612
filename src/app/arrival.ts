/** What came with the page: a picture in its address, or, in one file, the picture that was put into it. Read late, only where there is one. */
import type { SharedPicture } from '../records/sharedPicture';

export type Arrival =
  | { readonly kind: 'none' }
  | { readonly kind: 'picture'; readonly picture: SharedPicture; readonly from: 'link' | 'file' }
  | { readonly kind: 'refused'; readonly message: string };

/** `embedded`: the text of that element; null where the page is not one file. An address with a picture goes before it. */
export async function arrivalOf(hash: string, embedded: string | null): Promise<Arrival> {
  const linked = await linkArrival(hash);
  if (linked.kind !== 'none' || embedded === null || embedded.trim() === '') return linked;
  const { parsePictureText } = await import('../records/sharedPicture');
  const parsed = parsePictureText(embedded);
  return parsed.kind === 'picture' ? { ...parsed, from: 'file' } : { kind: 'refused', message: `The picture in this file cannot be read (${parsed.message}).` };
}

/** A place on the page is none, and most addresses have nothing at all: then nothing is fetched. */
export async function linkArrival(hash: string): Promise<Arrival> {
  if (hash === '' || hash === '#') return { kind: 'none' };
  const { readLink } = await import('../records/pictureLink');
  const read = readLink(hash);
  return read.kind === 'picture' ? { ...read, from: 'link' } : read;
}
