import { CHART } from './en/chart';
import { speaker } from './speaker';

export const sayChart = speaker('chart', CHART);
