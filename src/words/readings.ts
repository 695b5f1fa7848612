import { READINGS } from './en/readings';
import { speaker } from './speaker';

export const sayReadings = speaker('readings', READINGS);
