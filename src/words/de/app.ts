import type { APP as ENGLISH } from '../en/app';
import type { Translation } from '../messageFormat';

export const APP: Translation<typeof ENGLISH> = {
  language: 'Sprache',
};
