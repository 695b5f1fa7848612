/** Whose numbers the fields show: what was begun in a field for one lesson is not carried into another’s. */
import { createContext } from 'react';

export const FieldOwner = createContext('');
