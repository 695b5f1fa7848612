import { TRY_OUTS } from './en/tryOuts';
import { speaker } from './speaker';

export const sayTryOuts = speaker('tryOuts', TRY_OUTS);
