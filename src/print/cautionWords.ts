/** The cautions, each short enough to stand where it applies. */
import { sayPrint } from '../words/print';

export const CAUTIONS = {
  get geometry() {
    return sayPrint('cautionGeometry');
  },
  get pain() {
    return sayPrint('cautionPain');
  },
  get braces() {
    return sayPrint('cautionBraces');
  },
  get placement() {
    return sayPrint('cautionPlacement');
  },
  get change() {
    return sayPrint('cautionChange');
  },
} as const;

export type CautionName = keyof typeof CAUTIONS;
