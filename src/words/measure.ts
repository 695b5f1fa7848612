import { MEASURE } from './en/measure';
import { speaker } from './speaker';

export const sayMeasure = speaker('measure', MEASURE);
