import { MODELS } from './en/models';
import { speaker } from './speaker';

export const sayModels = speaker('models', MODELS);
