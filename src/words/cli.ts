import { CLI } from './en/cli';
import { speaker } from './speaker';

export const sayCli = speaker('cli', CLI);
