/** The cautions, each short enough to stand where it applies. */
export const CAUTIONS = {
  geometry: 'This is geometry, not medical or dental advice.',
  pain: 'Pain, numbness, loose teeth, bleeding or swelling mean: stop, and see a dentist or doctor.',
  braces: 'With braces, implants or an injury, ask a professional first.',
  placement: 'A placement is not chosen from a model; it is found by watching the player.',
  change: 'Change little at a time, and not before a performance.',
} as const;

export type CautionName = keyof typeof CAUTIONS;
