import { expect, test } from 'vitest';
import { codeTooLongWords, lengthWords, linkTooLongWords, whatGoesWords } from '../../../src/notebook/share/words';
import { EVERYTHING, UNTICKED } from '../../support/sharedPictures';

const lesson = { readings: 8, tryOuts: 1, measurings: 2 };

test('what goes along, and what stays', () => {
  expect(whatGoesWords({ choice: UNTICKED, ...lesson })).toBe(
    'Goes along: teeth, lips, rim and force; 8 readings and 1 try-out; the picture as it is looked at now. No label, no day, no remarks, nothing measured from films.',
  );
  expect(whatGoesWords({ choice: { ...UNTICKED, extent: 'readings' }, ...lesson, measurings: 0 })).toBe(
    'Goes along: teeth, lips, rim and force; 8 readings; the picture as it is looked at now. No label, no day, no remarks.',
  );
  expect(whatGoesWords({ choice: { ...EVERYTHING, extent: 'note' }, ...lesson })).toBe(
    'Goes along: teeth, lips, rim and force; the chosen note and home; the picture as it is looked at now.',
  );
});

test('how long a link is, and what cannot be', () => {
  expect(lengthWords(301)).toBe('301 characters.');
  expect(linkTooLongWords(124_500)).toContain('the link would have 124\u202f500 characters.');
  expect(linkTooLongWords(124_500)).toContain('none is made above 8\u202f000. Leave something out, or give one file');
  expect(codeTooLongWords(121)).toBe('A code of this link would have 121 squares a side, too fine to be read across a room; up to 97 can be.');
  expect(codeTooLongWords(null)).toBe('This link is too long for a code.');
});
