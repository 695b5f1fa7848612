import { HOLD } from './en/hold';
import { speaker } from './speaker';

export const sayHold = speaker('hold', HOLD);
