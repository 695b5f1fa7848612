import { STAGE } from './en/stage';
import { speaker } from './speaker';

export const sayStage = speaker('stage', STAGE);
