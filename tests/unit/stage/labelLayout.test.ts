import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createLabelBoxes, layLabels } from '../../../src/stage/labelLayout';

const WIDTH = 390;
const HEIGHT = 320;

it('never lays one label over another or over a fixed box, nor outside the picture', () => {
  const label = fc.record({
    x: fc.double({ min: -50, max: WIDTH + 50, noNaN: true }),
    y: fc.double({ min: -50, max: HEIGHT + 50, noNaN: true }),
    width: fc.integer({ min: 12, max: 160 }),
    height: fc.integer({ min: 14, max: 24 }),
  });
  fc.assert(
    fc.property(fc.array(label, { minLength: 2, maxLength: 24 }), (labels) => {
      const boxes = createLabelBoxes(labels.length + 1, 1);
      Object.assign(boxes.left, { 0: 12 });
      boxes.top[0] = 270;
      boxes.width[0] = 168;
      boxes.height[0] = 44;
      labels.forEach((each, index) => {
        boxes.anchorX[index + 1] = each.x;
        boxes.anchorY[index + 1] = each.y;
        boxes.width[index + 1] = each.width;
        boxes.height[index + 1] = each.height;
      });
      layLabels(boxes, WIDTH, HEIGHT);
      const shown = Array.from({ length: boxes.count }, (_, index) => index).filter((index) => !Number.isNaN(boxes.left[index]!));
      for (const a of shown) {
        if (a > 0) {
          expect(boxes.left[a]!).toBeGreaterThanOrEqual(0);
          expect(boxes.left[a]! + boxes.width[a]!).toBeLessThanOrEqual(WIDTH);
          expect(boxes.top[a]!).toBeGreaterThanOrEqual(0);
          expect(boxes.top[a]! + boxes.height[a]!).toBeLessThanOrEqual(HEIGHT);
        }
        for (const b of shown) {
          if (a >= b) continue;
          const apart =
            boxes.left[a]! + boxes.width[a]! <= boxes.left[b]! ||
            boxes.left[b]! + boxes.width[b]! <= boxes.left[a]! ||
            boxes.top[a]! + boxes.height[a]! <= boxes.top[b]! ||
            boxes.top[b]! + boxes.height[b]! <= boxes.top[a]!;
          expect(apart).toBe(true);
        }
      }
    }),
  );
});

it('shows the most important label first and keeps a label where it was while that is free', () => {
  const boxes = createLabelBoxes(2);
  for (const index of [0, 1]) {
    boxes.anchorX[index] = 100;
    boxes.anchorY[index] = 100;
    boxes.width[index] = 40;
    boxes.height[index] = 16;
  }
  layLabels(boxes, WIDTH, HEIGHT);
  const [first, second] = [boxes.place[0], boxes.place[1]];
  expect(first).toBe(0);
  expect(second).not.toBe(0);
  boxes.anchorX[0] = NaN;
  layLabels(boxes, WIDTH, HEIGHT);
  expect(boxes.left[0]).toBeNaN();
  expect(boxes.place[1]).toBe(second);
});
