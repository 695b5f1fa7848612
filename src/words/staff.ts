import { STAFF } from './en/staff';
import { speaker } from './speaker';

export const sayStaff = speaker('staff', STAFF);
