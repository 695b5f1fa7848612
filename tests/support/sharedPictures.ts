/** Pictures to be given away: invented players as they are shared, and random ones over the whole range of the format. */
import * as fc from 'fast-check';
import type { PlayerSpec } from '../../src/core/specs';
import type { PictureView, ShareChoice, SharedPicture } from '../../src/records/sharedPicture';
import { anyRecord } from './recordArbitrary';
import { fullPlayer, playerOf } from './records';

export const VIEW: PictureView = { camera: 'three-quarter', angles: 'seated', horn: 'follow', selected: 0, cutOpen: false, toothNumbers: false };
export const EVERYTHING: ShareChoice = { extent: 'lesson', ticks: { label: true, remarks: true, measurings: true } };
export const UNTICKED: ShareChoice = { extent: 'lesson', ticks: { label: false, remarks: false, measurings: false } };

export const anyView: fc.Arbitrary<PictureView> = fc.record({
  camera: fc.constantFrom('three-quarter' as const, 'face' as const, 'mirror' as const, 'side' as const, 'above' as const),
  angles: fc.constantFrom('plate' as const, 'sphere' as const, 'normal' as const, 'seated' as const),
  horn: fc.constantFrom('follow' as const, 'held' as const),
  selected: fc.nat(3),
  cutOpen: fc.boolean(),
  toothNumbers: fc.boolean(),
});

export const anyChoice: fc.Arbitrary<ShareChoice> = fc.record({
  extent: fc.constantFrom('lesson' as const, 'readings' as const, 'note' as const),
  ticks: fc.record({ label: fc.boolean(), remarks: fc.boolean(), measurings: fc.boolean() }),
});

/** Random records as players of one lesson, and the one with every field somewhere, some words of it random. */
export const anyPlayer: fc.Arbitrary<PlayerSpec> = fc.oneof(
  { weight: 3, arbitrary: anyRecord.map(playerOf) },
  {
    weight: 1,
    arbitrary: fc.tuple(fc.string({ unit: 'binary', maxLength: 60 }), fc.string({ unit: 'grapheme', maxLength: 100 }), fc.option(fc.double({ min: 0.001, max: 20, noNaN: true }))).map(([label, remark, rightSdMm]) => {
      const player = fullPlayer();
      player.label = label;
      const [reading] = player.lessons[0]!.readings;
      reading!.remark = remark.slice(0, 200);
      if (rightSdMm !== null) reading!.travel!.rightSdMm = rightSdMm;
      return player;
    }),
  },
);

/** Without the names that a picture gets anew each time it is read. */
export function unnamed({ player, view }: SharedPicture): unknown {
  const { id: _player, lessons, ...rest } = player;
  return JSON.parse(JSON.stringify({ view, ...rest, lessons: lessons.map(({ id: _lesson, ...lesson }) => lesson) }));
}
