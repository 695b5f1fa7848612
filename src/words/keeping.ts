import { KEEPING } from './en/keeping';
import { speaker } from './speaker';

export const sayKeeping = speaker('keeping', KEEPING);
