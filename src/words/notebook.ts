import { NOTEBOOK } from './en/notebook';
import { speaker } from './speaker';

export const sayNotebook = speaker('notebook', NOTEBOOK);
