/** Why a film or a picture cannot be used, in a sentence that says what to do. */
export type RefusalReason =
  | 'empty' // 0 bytes
  | 'unreadable' // gone or changed since it was chosen
  | 'text'
  | 'sound-only'
  | 'other-kind' // a picture dropped as a film, a film dropped as a picture, or anything else
  | 'no-frames'
  | 'cut-short' // its end is missing
  | 'damaged'
  | 'codec' // this browser has no decoder for it
  | 'too-large'
  | 'too-long'
  | 'old-browser';

export interface Refused {
  readonly kind: 'refused';
  readonly reason: RefusalReason;
  readonly words: string;
}

export const filmRefusals = {
  empty: () => refused('empty', 'The file is empty (0 bytes). Copy the film from the phone again.'),
  unreadable: () => refused('unreadable', 'The file can no longer be read: it was moved, renamed or changed. Choose it again.'),
  text: (name: string) => refused('text', `${named(name)} holds text, not a film. Choose the film itself: MP4, MOV or WebM.`),
  picture: (name: string) => refused('other-kind', `${named(name)} is a picture, not a film. Drop it where pictures are measured, or choose a film.`),
  otherKind: (name: string) => refused('other-kind', `${named(name)} is not a film that can be opened here. MP4, MOV and WebM can: save or convert it as one of these.`),
  soundOnly: (name: string) => refused('sound-only', `${named(name)} holds sound and no picture. Choose the film of the take, not a sound recording.`),
  noFrames: () => refused('no-frames', 'The film holds no pictures. If the phone was still saving it, copy it again when that is done.'),
  cutShort: () => refused('cut-short', 'The end of the file is missing, and with it what is needed to read the film. Copy it from the phone again, and let the copy finish.'),
  damaged: () => refused('damaged', 'The film is damaged and cannot be read. Copy it from the phone again; if that does not help, film the take again.'),
  codec: (codecWords: string) =>
    refused(
      'codec',
      `The film is stored as ${codecWords}, which this browser cannot show. Set the phone’s camera to H.264 (often called “most compatible”) and film again, or convert the film to MP4 with H.264.`,
    ),
  tooLarge: (width: number, height: number, mostPixels: number) =>
    refused(
      'too-large',
      `The film is ${width} × ${height} px; at most ${millions(mostPixels)} million px a frame can be read (4K). 1280 × 720 or 1920 × 1080 is enough: set the camera to that, or convert the film.`,
    ),
  tooLong: (durationS: number, mostS: number) =>
    refused('too-long', `The film lasts ${inMinutes(durationS)}; at most ${inMinutes(mostS)} can be read. Cut it to the take that is to be measured.`),
  tooManyFrames: (count: number, most: number) =>
    refused(
      'too-long',
      `The film has ${inThousands(count)} pictures; at most ${inThousands(most)} can be read. Cut it to the take that is to be measured, or film with fewer pictures a second: 30 or 60 are enough.`,
    ),
  oldBrowser: () => refused('old-browser', 'This browser cannot read films frame by frame. Use a newer one; pictures can be measured in this one.'),
} as const;

export const stillRefusals = {
  empty: () => refused('empty', 'The file is empty (0 bytes). Copy the picture from the camera again.'),
  unreadable: () => refused('unreadable', 'The file can no longer be read: it was moved, renamed or changed. Choose it again.'),
  text: (name: string) => refused('text', `${named(name)} holds text, not a picture. Choose the picture itself: JPEG, PNG or WebP.`),
  film: (name: string) => refused('other-kind', `${named(name)} is a film, not a picture. Drop it where films are measured, or choose a picture.`),
  otherKind: (name: string) => refused('other-kind', `${named(name)} is not a picture that can be opened here. JPEG, PNG and WebP can: save or convert it as one of these.`),
  cutShort: () => refused('cut-short', 'The end of the picture is missing. Copy it from the camera again, and let the copy finish.'),
  damaged: () => refused('damaged', 'The picture is damaged and cannot be read. Copy it from the camera again.'),
  codec: (codecWords: string) =>
    refused('codec', `The picture is stored as ${codecWords}, which this browser cannot show. Set the camera to JPEG (often called “most compatible”), or convert the picture to JPEG.`),
  tooLarge: (width: number, height: number, mostPixels: number) =>
    refused('too-large', `The picture is ${width} × ${height} px; at most ${millions(mostPixels)} million px can be read. Make it smaller: 12 million are enough.`),
} as const;

function refused(reason: RefusalReason, words: string): Refused {
  return { kind: 'refused', reason, words };
}

/** How much of a file's name is repeated. */
const NAME_CHARACTERS = 60;

function named(name: string): string {
  const plain = name.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
  if (plain === '') return 'The file';
  return `“${plain.length > NAME_CHARACTERS ? `${plain.slice(0, NAME_CHARACTERS)}…` : plain}”`;
}

const millions = (count: number): string => (count / 1e6).toFixed(count < 1e7 ? 1 : 0);

const inThousands = (count: number): string => `${Math.floor(count / 1000)},${String(count % 1000).padStart(3, '0')}`;

function inMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (minutes < 120) return `${minutes} minutes`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
