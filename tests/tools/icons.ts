/** Draws the icons of the installed app from public/favicon.svg. Run by hand when that drawing changes: npx tsx tests/tools/icons.ts */
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = join(import.meta.dirname, '../../public');
const drawing = readFileSync(join(folder, 'favicon.svg'), 'utf8');
const ground = /<rect [^>]*fill="(#[0-9A-F]{6})"/.exec(drawing)?.[1];
if (ground === undefined) throw new Error('favicon.svg has no ground: <rect … fill="#RRGGBB"> is looked for');

/** A maskable icon may be cut to a circle of 80 % of its width (W3C Web Application Manifest): the drawing keeps within it. */
const MASK_SAFE = 0.7;

for (const { name, size, part } of [
  { name: 'icon-192.png', size: 192, part: 1 },
  { name: 'icon-512.png', size: 512, part: 1 },
  { name: 'icon-maskable-512.png', size: 512, part: MASK_SAFE },
]) {
  const canvas = createCanvas(size, size);
  const context = canvas.getContext('2d');
  if (part < 1) {
    context.fillStyle = ground;
    context.fillRect(0, 0, size, size);
  }
  const image = await loadImage(Buffer.from(drawing.replace('<svg ', `<svg width="${size}" height="${size}" `)));
  const drawn = size * part;
  context.drawImage(image, (size - drawn) / 2, (size - drawn) / 2, drawn, drawn);
  writeFileSync(join(folder, 'icons', name), canvas.toBuffer('image/png'));
}
