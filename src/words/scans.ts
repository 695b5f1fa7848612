import { SCANS } from './en/scans';
import { speaker } from './speaker';

export const sayScans = speaker('scans', SCANS);
