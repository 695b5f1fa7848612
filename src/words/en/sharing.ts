/** Why a link or a file with a picture in it cannot be shown; what goes along with one. */
export const SHARING = {
  linkRefused: '{what} Ask for it once more, or for one file. Nothing of yours has been changed.',
  notOurs: 'What stands behind the # of this address is no picture of this program.',
  newerLink: 'This link was made by a newer version of this program than the page you have: reload the page, then open the link again.',
  linkTooLong: 'This link has {count} characters, and up to {most} are read.',
  notWhole: 'This link is not whole: it was cut off or changed on its way.',
  noPicture: 'What stands in this link is no picture that can be read.',
  pictureUnreadable: 'The picture in this link cannot be read ({why}).',

  pictureTooLong: 'picture: {count} characters; allowed: up to {most}',
  pictureNotJson: 'picture: not JSON ({detail}); allowed: a JSON object',
  notAnObject: 'picture: {value}; allowed: an object',
  manyLessons: 'record: more than one lesson; allowed: one player with one lesson',

  measuredDay: 'With what was measured goes the day of measuring; the files’ names go only with the label.',
} as const;
