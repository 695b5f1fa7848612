/** What the work on scans begins from. */
import type { Arcs } from '../../core/drawableArcs';
import type { JawArchSpec } from '../../core/specs';
import type { PictureSize } from '../../scans/scanView';
import type { JawName } from '../../scans/startView';
import { notebookLibrary } from '../library';

/** Of the first picture, until the page has said how large it is drawn, px. */
export const FIRST_PICTURE: PictureSize = { width: 480, height: 360 };

/** The average arch's: what a scan does not show stays so. */
export function usualProfile(jaw: JawName): Arcs {
  const { arch } = notebookLibrary.arches[0]!;
  const { profile } = 'single' in arch ? arch.single : (arch[jaw] satisfies JawArchSpec);
  if (profile.kind !== 'arcs') throw new TypeError('usualProfile: the average arch has crowns and gums');
  return profile;
}
