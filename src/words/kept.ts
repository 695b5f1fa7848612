import { KEPT } from './en/kept';
import { speaker } from './speaker';

export const sayKept = speaker('kept', KEPT);
