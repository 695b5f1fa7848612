/**
 * A picture in the fragment of an address, which no browser sends to any server: `#see1=…`, the number being the version. Behind it, in the
 * letters that an address may hold (base64url, RFC 4648 §5): a check sum of four bytes, then the picture's text deflated (RFC 1951) with a
 * dictionary, and one letter that says that the end is there. Pure: no page, no storage.
 */
import { Inflate, deflateSync, strFromU8, strToU8 } from 'fflate';
import { crc32 } from '../core/crc32';
import { saySharing } from '../words/sharing';
import { LINK_DICTIONARY_1 } from './linkDictionary';
import { type NewId, newId } from './newId';
import { type ParsedPicture, type SharedPicture, parsePictureText, pictureText } from './sharedPicture';

const LINK_VERSION = 1;
/**
 * Characters of a whole link. Browsers take far longer ones; programs for mail and messages begin to cut them or not to recognise them
 * somewhere above this (our judgement, no published source).
 */
export const LONGEST_LINK = 8000;
/** What a link may inflate to: some ten times the longest picture that fits, and far below what a hostile one could ask for. */
export const LARGEST_INFLATED_BYTES = 500_000;

export type MadeLink =
  | { readonly kind: 'link'; readonly address: string }
  /** `characters`: how long it would have been. */
  | { readonly kind: 'too-long'; readonly characters: number };

export type ReadLink = { readonly kind: 'none' } | ParsedPicture;

/** `base`: the page's own address without a fragment. Throws RangeError for a picture that could not be read again. */
export function linkOf(picture: SharedPicture, base: string): MadeLink {
  const bytes = strToU8(pictureText(picture));
  const packed = deflateSync(bytes, { level: 9, mem: 4, dictionary: dictionary() });
  const address = `${base}#${MARK}${LINK_VERSION}=${asLetters(withCheck(packed))}${END}`;
  if (address.length > LONGEST_LINK || bytes.length > LARGEST_INFLATED_BYTES) return { kind: 'too-long', characters: address.length };
  return { kind: 'link', address };
}

/**
 * What an address’s fragment holds, with or without its #. `none`: nothing, or a place on the page. Never throws; a refusal is a sentence
 * for the reader.
 */
export function readLink(fragment: string, idOf: NewId = newId): ReadLink {
  const words = unescaped(fragment.replace(/^#/, ''));
  if (words === '' || PLACE_ON_PAGE.test(words) || words.startsWith(TEXT_DIRECTIVE)) return { kind: 'none' };
  const parts = OURS.exec(words);
  if (parts === null) return refused(saySharing('notOurs'));
  const [, version = '', letters = ''] = parts;
  if (Number(version) > LINK_VERSION) return refused(saySharing('newerLink'));
  if (Number(version) !== LINK_VERSION) return refused(saySharing('notWhole'));
  if (letters.length > LONGEST_LINK) return refused(saySharing('linkTooLong', { count: letters.length, most: LONGEST_LINK }));
  if (!letters.endsWith(END)) return refused(saySharing('notWhole'));
  const packed = checked(fromLetters(letters.slice(0, -END.length)));
  if (packed === null) return refused(saySharing('notWhole'));
  const text = inflated(packed);
  if (text === null) return refused(saySharing('noPicture'));
  const parsed = parsePictureText(text, idOf);
  return parsed.kind === 'picture' ? parsed : refused(saySharing('pictureUnreadable', { why: parsed.message }));
}

const MARK = 'see';
const END = 'Z';
const OURS = /^see(\d{0,6})=?(.*)$/s;
/** Chapters and fields of the page, and the steps of a class. */
const PLACE_ON_PAGE = /^(?!see\d)(?:[a-z][a-z0-9:_-]*|class\/[a-z0-9_-]*)$/i;
/** What browsers put there that do not take it away by themselves. */
const TEXT_DIRECTIVE = ':~:';
const CHECK_BYTES = 4;
/** So much is inflated before it is asked whether it is too much: 512 bytes give half a megabyte at most. */
const PIECE_BYTES = 512;

let dictionaryBytes: Uint8Array | null = null;
const dictionary = (): Uint8Array => (dictionaryBytes ??= strToU8(LINK_DICTIONARY_1));

/** Some programs write = and others as %3D. */
function unescaped(words: string): string {
  try {
    return decodeURIComponent(words);
  } catch {
    return words;
  }
}

function refused(what: string): ParsedPicture {
  return { kind: 'refused', message: saySharing('linkRefused', { what }) };
}

function withCheck(packed: Uint8Array): Uint8Array {
  const whole = new Uint8Array(CHECK_BYTES + packed.length);
  new DataView(whole.buffer).setUint32(0, crc32(packed));
  whole.set(packed, CHECK_BYTES);
  return whole;
}

function checked(whole: Uint8Array | null): Uint8Array | null {
  if (whole === null || whole.length <= CHECK_BYTES) return null;
  const packed = whole.subarray(CHECK_BYTES);
  return new DataView(whole.buffer, whole.byteOffset).getUint32(0) === crc32(packed) ? packed : null;
}

/** Null for what is not deflated text, and for what would become too large. */
function inflated(packed: Uint8Array): string | null {
  const pieces: Uint8Array[] = [];
  let size = 0;
  const inflate = new Inflate({ dictionary: dictionary() }, (piece) => {
    size += piece.length;
    pieces.push(piece);
  });
  try {
    for (let at = 0; at < packed.length; at += PIECE_BYTES) {
      inflate.push(packed.subarray(at, at + PIECE_BYTES), at + PIECE_BYTES >= packed.length);
      if (size > LARGEST_INFLATED_BYTES) return null;
    }
    const bytes = new Uint8Array(size);
    let at = 0;
    for (const piece of pieces) {
      bytes.set(piece, at);
      at += piece.length;
    }
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

const asLetters = (bytes: Uint8Array): string => btoa(strFromU8(bytes, true)).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');

function fromLetters(letters: string): Uint8Array | null {
  if (!/^[A-Za-z0-9_-]+$/.test(letters)) return null;
  try {
    return strToU8(atob(letters.replaceAll('-', '+').replaceAll('_', '/')), true);
  } catch {
    return null;
  }
}
