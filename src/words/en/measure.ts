/** Why a film or a picture cannot be used, and what to do; said where it is read, in a worker or on the page. */
export const MEASURE = {
  // What a file is called.
  namedFile: '“{name}”',
  theFile: 'The file',
  minutes: '{count} minutes',
  hours: '{hours} h {minutes} min',

  // Films.
  filmEmpty: 'The file is empty (0 bytes). Copy the film from the phone again.',
  stillNotFetched: 'What opens pictures could not be fetched. Load the page again where there is a network.',
  unreadable: 'The file can no longer be read: it was moved, renamed or changed. Choose it again.',
  filmText: '{file} holds text, not a film. Choose the film itself: MP4, MOV or WebM.',
  pictureAsFilm: '{file} is a picture, not a film. Drop it where pictures are measured, or choose a film.',
  filmOtherKind: '{file} is not a film that can be opened here. MP4, MOV and WebM can: save or convert it as one of these.',
  soundOnly: '{file} holds sound and no picture. Choose the film of the take, not a sound recording.',
  noFrames: 'The film holds no pictures. If the phone was still saving it, copy it again when that is done.',
  filmCutShort:
    'The end of the file is missing, and with it what is needed to read the film. Copy it from the phone again, and let the copy finish.',
  filmDamaged: 'The film is damaged and cannot be read. Copy it from the phone again; if that does not help, film the take again.',
  filmCodec:
    'The film is stored as {codec}, which this browser cannot show. Set the phone’s camera to H.264 (often called “most compatible”) and film again, or convert the film to MP4 with H.264.',
  filmTooLarge:
    'The film is {width} × {height} px; at most {most} million px a frame can be read (4K). 1280 × 720 or 1920 × 1080 is enough: set the camera to that, or convert the film.',
  filmTooLong: 'The film lasts {duration}; at most {most} can be read. Cut it to the take that is to be measured.',
  tooManyFrames:
    'The film has {count} pictures; at most {most} can be read. Cut it to the take that is to be measured, or film with fewer pictures a second: 30 or 60 are enough.',
  oldBrowser: 'This browser cannot read films frame by frame. Use a newer one; pictures can be measured in this one.',

  // Films that open, but not as one would wish.
  onlyTheFirst: 'Only the first {seconds} s of the film can be read: the rest is missing or damaged. Copy it again if you need the rest.',
  noSound: 'The film has no sound: tap the notes while the film plays.',
  soundCodec: 'The film’s sound is stored as {codec}, which this browser cannot read: tap the notes while the film plays.',
  ownCodec: '“{codec}”',
  unknownCodec: 'a format that is not known here',
  damagedPast: 'The film cannot be read past {seconds} s: it is damaged there. Copy it from the phone again, or cut it before that place.',
  changedSize:
    'From {seconds} s on the film’s pictures have another size ({width} × {height} px instead of {filmWidth} × {filmHeight}): marks cannot be followed from one to the other. Cut the film there, and measure one part.',
  unfitRate:
    'The film’s sound has {rate} samples a second; notes can be heard in {lowest} to {highest}. Tap the notes by hand, or convert the film’s sound to 48,000.',
  noShowing: 'this browser gives no canvas to show frames with',
  noReading: 'this browser gives no canvas to read frames with',

  // Pictures.
  stillEmpty: 'The file is empty (0 bytes). Copy the picture from the camera again.',
  stillText: '{file} holds text, not a picture. Choose the picture itself: JPEG, PNG or WebP.',
  filmAsPicture: '{file} is a film, not a picture. Drop it where films are measured, or choose a picture.',
  stillOtherKind: '{file} is not a picture that can be opened here. JPEG, PNG and WebP can: save or convert it as one of these.',
  stillCutShort: 'The end of the picture is missing. Copy it from the camera again, and let the copy finish.',
  stillDamaged: 'The picture is damaged and cannot be read. Copy it from the camera again.',
  stillCodec:
    'The picture is stored as {codec}, which this browser cannot show. Set the camera to JPEG (often called “most compatible”), or convert the picture to JPEG.',
  stillTooLarge: 'The picture is {width} × {height} px; at most {most} million px can be read. Make it smaller: 12 million are enough.',
} as const;
