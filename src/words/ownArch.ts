import { OWN_ARCH } from './en/ownArch';
import { speaker } from './speaker';

export const sayOwnArch = speaker('ownArch', OWN_ARCH);
