import { APP } from './en/app';
import { speaker } from './speaker';

export const sayApp = speaker('app', APP);
