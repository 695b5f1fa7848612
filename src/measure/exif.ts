/** What a camera wrote beside a picture (Exif 2.32, CIPA DC-008; tags from memory), so far as measuring needs it. */

export interface CameraNotes {
  /** Focal length as on 35 mm film, mm: by the picture's diagonal, 43.27 mm there. */
  readonly focal35Mm: number | null;
}

/**
 * `tiff`: an Exif block from its byte order mark on, or null. Bytes that make no sense give no notes; nothing throws, and no block takes long.
 */
export function cameraNotes(tiff: Uint8Array | null): CameraNotes {
  if (tiff === null || tiff.length < 8) return NOTHING;
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength);
  const order = view.getUint16(0);
  if (order !== LITTLE && order !== BIG) return NOTHING;
  const block: Block = { view, isLittle: order === LITTLE };
  if (view.getUint16(2, block.isLittle) !== TIFF_MARK) return NOTHING;
  const detail = wholeNumber(block, view.getUint32(4, block.isLittle), EXIF_FOLDER);
  const focal = detail === null ? null : wholeNumber(block, detail, FOCAL_35);
  return focal !== null && focal >= LEAST_FOCAL_MM && focal <= MOST_FOCAL_MM ? { focal35Mm: focal } : NOTHING;
}

interface Block {
  readonly view: DataView;
  readonly isLittle: boolean;
}

const NOTHING: CameraNotes = { focal35Mm: null };
const LITTLE = 0x4949;
const BIG = 0x4d4d;
const TIFF_MARK = 42;
const EXIF_FOLDER = 0x8769;
const FOCAL_35 = 0xa405;
/** Shorter than any fisheye and longer than any lens that a player is photographed with; 0 means unknown. */
const LEAST_FOCAL_MM = 5;
const MOST_FOCAL_MM = 2000;
const ENTRY_BYTES = 12;
const SHORT = 3;
const LONG = 4;

/** The first value of a tag with whole numbers, in the folder at an offset. */
function wholeNumber({ view, isLittle }: Block, folder: number, wanted: number): number | null {
  if (folder + 2 > view.byteLength) return null;
  const count = view.getUint16(folder, isLittle);
  for (let entry = 0; entry < count; entry++) {
    const at = folder + 2 + entry * ENTRY_BYTES;
    if (at + ENTRY_BYTES > view.byteLength) return null;
    if (view.getUint16(at, isLittle) !== wanted) continue;
    const type = view.getUint16(at + 2, isLittle);
    if (view.getUint32(at + 4, isLittle) !== 1) return null;
    if (type === SHORT) return view.getUint16(at + 8, isLittle);
    return type === LONG ? view.getUint32(at + 8, isLittle) : null;
  }
  return null;
}
