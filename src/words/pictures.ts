import { PICTURES } from './en/pictures';
import { speaker } from './speaker';

export const sayPictures = speaker('pictures', PICTURES);
