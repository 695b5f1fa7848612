/** Smooth random brightness that is known at every place, not only at pixels: what is drawn of it under a known motion has an exact truth. */
import type { Random } from '../../src/core/random';
import type { GreyPicture } from '../../src/measure/picture';

/** Grey level at a place, px. */
export type Brightness = (x: number, y: number) => number;

/** A sum of waves of `shortestPx` to four times that, about 128, with this standard deviation. */
export function createTexture(random: Random, shortestPx: number, deviation = 35, count = 24): Brightness {
  const waves = Array.from({ length: count }, () => {
    const length = shortestPx * (1 + 3 * random.uniform());
    const direction = 2 * Math.PI * random.uniform();
    return {
      alongX: (2 * Math.PI * Math.cos(direction)) / length,
      alongY: (2 * Math.PI * Math.sin(direction)) / length,
      phase: 2 * Math.PI * random.uniform(),
    };
  });
  const height = deviation * Math.sqrt(2 / waves.length);
  return (x, y) => waves.reduce((sum, wave) => sum + height * Math.sin(wave.alongX * x + wave.alongY * y + wave.phase), 128);
}

/** The brightness at each pixel's centre, with normal noise, rounded and cut to 0 to 255. */
export function pictureOf(width: number, height: number, brightness: Brightness, noise?: { random: Random; sdGrey: number }): GreyPicture {
  const luma = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const value = brightness(x, y) + (noise ? noise.sdGrey * noise.random.normal() : 0);
      luma[y * width + x] = Math.max(0, Math.min(255, Math.round(value)));
    }
  }
  return { width, height, luma };
}

/** The texture after a motion: what was at `about` + (u, v) is at `about` + shift + (a·u − b·v, b·u + a·v). */
export function moved(
  brightness: Brightness, about: { x: number; y: number }, { dx, dy, a, b }: { dx: number; dy: number; a: number; b: number },
): Brightness {
  const size = a * a + b * b;
  return (x, y) => {
    const u = x - about.x - dx;
    const v = y - about.y - dy;
    return brightness(about.x + (a * u + b * v) / size, about.y + (a * v - b * u) / size);
  };
}
