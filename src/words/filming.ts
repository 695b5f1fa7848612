import { FILMING } from './en/filming';
import { speaker } from './speaker';

export const sayFilming = speaker('filming', FILMING);
