import { PRINT } from './en/print';
import { speaker } from './speaker';

export const sayPrint = speaker('print', PRINT);
