/** Files dropped on the chapter: pictures are measured one by one, films as one take. */
import { KIND_BYTES, fileKind } from '../measure/fileKind';
import type { GreyPicture } from '../measure/picture';
import { instrumentById } from '../records/library';
import { sayMarking } from '../words/marking';
import type { FilmingStore, ShownFrame } from './filmingTypes';
import type { MeasuringStore } from './measuring';
import { rangeOf } from './takeNow';

export interface FilesOpened {
  readonly measuring: MeasuringStore;
  readonly filming: FilmingStore;
  readonly range: { readonly lowMidi: number; readonly highMidi: number };
}

/** Only one kind is open at a time: what is open says which of mixed files are taken, else the first does. */
export async function openFiles(files: readonly File[], { measuring, filming, range }: FilesOpened): Promise<void> {
  const areFilms = await Promise.all(files.map(isFilm));
  const wantsFilms = filming.getState().films.length > 0 || (measuring.getState().sources.length === 0 && areFilms[0] === true);
  const fitting = files.filter((_, index) => areFilms[index] === wantsFilms);
  const left = files.filter((_, index) => areFilms[index] !== wantsFilms);
  if (fitting.length > 0) await (wantsFilms ? filming.getState().open(fitting, range) : measuring.getState().open(fitting));
  if (left.length === 0) return;
  const names = left.map(({ name }) => name).join(', ');
  const words = wantsFilms ? sayMarking('closeFilmFirst', { files: names }) : sayMarking('closePicturesFirst', { files: names });
  if (wantsFilms) filming.setState({ refusals: [...filming.getState().refusals, words] });
  else measuring.setState({ refusals: [...measuring.getState().refusals, words] });
}

const FILM_NAME = /\.(mp4|m4v|mov|webm|mkv|avi|mpe?g|3gp|mts)$/i;

/** By what it begins with; what that does not tell (an empty file, a text), by its name. */
async function isFilm(file: File): Promise<boolean> {
  let kind: ReturnType<typeof fileKind> = 'unknown';
  try {
    kind = fileKind(new Uint8Array(await file.slice(0, KIND_BYTES).arrayBuffer()));
  } catch {
    // A file that is gone: whoever opens it says so.
  }
  if (kind === 'picture' || kind === 'heic') return false;
  return kind === 'film' || kind === 'sound' || FILM_NAME.test(file.name) || file.type.startsWith('video/');
}

/** Below any brass instrument's lowest note and above its highest, where the instrument is none of the library's. */
const ANY_NOTE = { lowMidi: 24, highMidi: 96 };

export function instrumentRange(id: string): { readonly lowMidi: number; readonly highMidi: number } {
  const range = instrumentById(id)?.comfortableRange;
  return range === undefined ? ANY_NOTE : rangeOf(range);
}

/** Brightness of a frame on the page, for snapping to an edge: read once for each frame. */
export function greyOfFrame({ bitmap }: ShownFrame): GreyPicture {
  const known = read.get(bitmap);
  if (known !== undefined) return known;
  const { width, height } = bitmap;
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  const luma = new Uint8Array(width * height);
  if (context !== null) {
    context.drawImage(bitmap, 0, 0);
    const { data } = context.getImageData(0, 0, width, height);
    for (let index = 0; index < luma.length; index++) {
      luma[index] = Math.round(RED * data[4 * index]! + GREEN * data[4 * index + 1]! + BLUE * data[4 * index + 2]!);
    }
  }
  const grey = { width, height, luma };
  read.set(bitmap, grey);
  return grey;
}

/** Luma by ITU-R BT.709. */
const [RED, GREEN, BLUE] = [0.2126, 0.7152, 0.0722];
const read = new WeakMap<ImageBitmap, GreyPicture>();
