import { CLASS } from './en/class';
import { speaker } from './speaker';

export const sayClass = speaker('class', CLASS);
