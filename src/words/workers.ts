import { WORKERS } from './en/workers';
import { speaker } from './speaker';

export const sayWorkers = speaker('workers', WORKERS);
