import { BESIDE } from './en/beside';
import { speaker } from './speaker';

export const sayBeside = speaker('beside', BESIDE);
