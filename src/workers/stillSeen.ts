/** A photograph opened, known by its bytes, and made smaller for showing the whole. In a worker, or on the page where there are none. */
import { type FileMark, markFile } from '../measure/fileMark';
import { type Refused, stillRefusals } from '../measure/refusals';
import { type OpenedStill, openStill } from '../measure/stillPicture';

export interface StillSeen extends OpenedStill {
  /** The same made smaller, for showing the whole; null where the picture is small itself. */
  readonly small: ImageBitmap | null;
  readonly mark: FileMark;
}

/** The longest side of what stands for the whole picture, px: a large screen's. Beyond, a page that draws the picture at every step of a drag would halt. */
const SMALL_PX = 2048;

/** Never rejects for what is in the file. The bitmaps are the caller's to close. */
export async function stillSeen(file: File): Promise<StillSeen | Refused> {
  const opened = await openStill(file);
  if (opened.kind === 'refused') return opened;
  try {
    const mark = await markFile(file).catch(() => null);
    if (mark !== null) return { ...opened, small: await smaller(opened.bitmap), mark };
  } catch (fault) {
    opened.bitmap.close();
    throw fault;
  }
  opened.bitmap.close();
  return stillRefusals.unreadable();
}

/** By a whole number of times, so that its pixels lie on the picture's own. */
async function smaller(bitmap: ImageBitmap): Promise<ImageBitmap | null> {
  const times = Math.ceil(Math.max(bitmap.width, bitmap.height) / SMALL_PX);
  if (times < 2) return null;
  return createImageBitmap(bitmap, { resizeWidth: Math.round(bitmap.width / times), resizeHeight: Math.round(bitmap.height / times), resizeQuality: 'high' });
}
