import { CORE } from './en/core';
import { speaker } from './speaker';

export const sayCore = speaker('core', CORE);
