import { PAGE } from './en/page';
import { speaker } from './speaker';

export const sayPage = speaker('page', PAGE);
