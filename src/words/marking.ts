import { MARKING } from './en/marking';
import { speaker } from './speaker';

export const sayMarking = speaker('marking', MARKING);
