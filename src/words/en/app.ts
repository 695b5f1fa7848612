/** The page's head. */
export const APP = {
  language: 'Language',
} as const;
