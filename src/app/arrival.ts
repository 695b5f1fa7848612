/** What came with the page: a picture in its address, or, in one file, the picture that was put into it. Read late, only where there is one. */
import type { SharedPicture } from '../records/sharedPicture';
import { sayApp } from '../words/app';
import { sayPage } from '../words/page';

export type Arrival =
  | { readonly kind: 'none' }
  | { readonly kind: 'picture'; readonly picture: SharedPicture; readonly from: 'link' | 'file' }
  | { readonly kind: 'refused'; readonly message: string };

/** `embedded`: the text of that element; null where the page is not one file. An address with a picture goes before it. */
export async function arrivalOf(hash: string, embedded: string | null): Promise<Arrival> {
  const linked = await linkArrival(hash);
  if (linked.kind !== 'none' || embedded === null || embedded.trim() === '') return linked;
  const reader = await fetched(() => import('../records/sharedPicture'));
  if (reader === null) return unread();
  const parsed = reader.parsePictureText(embedded);
  return parsed.kind === 'picture' ? { ...parsed, from: 'file' } : { kind: 'refused', message: sayPage('pictureUnreadable', { why: parsed.message }) };
}

/** A place on the page is none, and most addresses have nothing at all: then nothing is fetched. */
export async function linkArrival(hash: string): Promise<Arrival> {
  if (hash === '' || hash === '#') return { kind: 'none' };
  const reader = await fetched(() => import('../records/pictureLink'));
  if (reader === null) return unread();
  const read = reader.readLink(hash);
  return read.kind === 'picture' ? { ...read, from: 'link' } : read;
}

/** Null where it could not be had, as where the network has gone meanwhile: the page itself has to open all the same. */
async function fetched<T>(load: () => Promise<T>): Promise<T | null> {
  try {
    return await load();
  } catch {
    return null;
  }
}

const unread = (): Arrival => ({ kind: 'refused', message: sayApp('readerMissing') });
