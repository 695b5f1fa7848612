import { SHARE } from './en/share';
import { speaker } from './speaker';

export const sayShare = speaker('share', SHARE);
