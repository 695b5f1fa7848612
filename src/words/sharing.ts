import { SHARING } from './en/sharing';
import { speaker } from './speaker';

export const saySharing = speaker('sharing', SHARING);
