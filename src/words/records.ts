import { RECORDS } from './en/records';
import { speaker } from './speaker';

export const sayRecords = speaker('records', RECORDS);
