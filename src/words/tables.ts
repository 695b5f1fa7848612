import { TABLES } from './en/tables';
import { speaker } from './speaker';

export const sayTables = speaker('tables', TABLES);
