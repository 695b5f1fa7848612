import { SAYS } from './en/says';
import { speaker } from './speaker';

export const saySays = speaker('says', SAYS);
