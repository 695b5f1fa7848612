/** The figure from above, laid out on paper. */
import type { Analysis } from '../core/analysis';
import { type AboveGeometry, aboveGeometry, paperAngle } from './aboveGeometry';
import { type Figure, type FigureLine, type FigureSize, type FigureText, type KeyRow, KEY_ROW_MM, TEXT_MM, TITLE_MM, drawKey, drawMoved, drawScale, drawSwing, fitInto } from './figure';
import { type Point, axisLengthMm } from './hornShape';
import { fixed } from '../words/numbers';
import { sayPrint } from '../words/print';
import { type FigureWords, heldWords, homeWords, movedWords } from './sideFigure';

export function aboveFigure(analysis: Analysis, words: FigureWords, size: FigureSize): Figure {
  const geometry = aboveGeometry(analysis);
  const radius = axisLengthMm(analysis.record.rim);
  const key = keyRows(analysis, geometry, words);
  const roomBottom = size.heightMm - key.length * KEY_ROW_MM - 2;
  const top = TITLE_MM + 3 + TEXT_MM * 1.5;
  const fit = fitInto({ left: 0.5, right: size.widthMm - 0.5, top, bottom: roomBottom }, everyPoint(geometry));
  const swings = geometry.moved.map(({ swing }) => drawSwing(fit, swing, radius, paperAngle));
  const numbers = geometry.moved.map(({ reading, horn }): FigureText => {
    const [x, y] = fit.place(horn.tipMm);
    const degrees = reading.changeFromHome.lateralDeg;
    const anchor = degrees > 0 ? 'start' : 'end';
    return {
      kind: 'predicted',
      at: [x + (degrees > 0 ? 1 : -1), y - 2],
      anchor,
      text: `${words.noteLabel(reading.note)} ${fixed(Math.abs(degrees), 1)}°`,
    };
  });
  const drawnKey = drawKey(key, size);
  const scaleBar = drawScale(fit, size, roomBottom);
  const keyWords = key.flat().map(({ text }) => text).join('; ');
  const { centreMm, tipMm } = geometry.home;
  const sidesY = fit.place([0, centreMm[1] + (tipMm[1] - centreMm[1]) * SIDES_PART])[1];
  const sides: readonly FigureText[] = [
    { kind: 'quiet', at: [0.5, sidesY], anchor: 'start', text: sayPrint('playersLeft') },
    { kind: 'quiet', at: [size.widthMm - 0.5, sidesY], anchor: 'end', text: sayPrint('playersRight') },
  ];
  return {
    ...size,
    description: sayPrint('aboveDescribed', { key: keyWords }),
    lines: [
      ...mouthLines(geometry).map((line) => placed(line, fit.place)),
      ...geometry.moved.flatMap((one) => drawMoved(fit, one, true)),
      ...swings.flatMap(({ lines }) => lines),
      ...scaleBar.lines,
      ...drawnKey.lines,
    ],
    marks: [
      ...geometry.moved.map(({ horn }) => ({ kind: 'predicted' as const, at: fit.place(horn.tipMm) })),
      ...swings.flatMap(({ marks }) => marks),
      ...drawnKey.marks,
    ],
    texts: [{ kind: 'title', at: [0, TITLE_MM], anchor: 'start', text: sayPrint(geometry.moved.length === 0 ? 'fromAbove' : 'fromAboveFurthest') }, ...numbers, ...sides, ...scaleBar.texts, ...drawnKey.texts],
  };
}

/** Where along the horn the words stand that say which side is which: beside the tube, where nothing else is wide. */
const SIDES_PART = 0.6;

function keyRows(analysis: Analysis, { moved, arches }: AboveGeometry, words: FigureWords): readonly KeyRow[] {
  const measured = moved.some(({ swing }) => swing.measuredDeg !== null) ? [{ kind: 'measured' as const, text: sayPrint('asMeasured') }] : [];
  const lower = arches.length < 2 ? [] : [{ kind: 'arch-lower' as const, text: sayPrint('lowerTeeth') }];
  return [
    ...moved.map(({ reading }): KeyRow => [{
      kind: 'moved',
      textKind: 'predicted',
      text: movedWords(words.noteLabel(reading.note), words.posture, 'lateral', reading.changeFromHome.lateralDeg),
    }]),
    ...(moved.length === 0 ? [] : [[{ kind: 'held' as const, text: heldWords(words.posture) }]]),
    [{ kind: 'home', text: homeWords(analysis, words) }, ...lower],
    ...(measured.length === 0 ? [] : [measured]),
  ];
}

function mouthLines({ arches, lip, home }: AboveGeometry): readonly FigureLine[] {
  return [
    { kind: 'lip', points: lip },
    ...arches.toReversed().map(({ jaw, edge }): FigureLine => ({ kind: jaw === 'lower' ? 'arch-lower' : 'arch', points: edge })),
    ...home.rim.map((points): FigureLine => ({ kind: 'home', points, closed: true })),
    ...home.outside.map((points): FigureLine => ({ kind: 'home', points })),
    { kind: 'home-axis', points: [home.centreMm, home.tipMm] },
  ];
}

function everyPoint({ arches, lip, home, moved }: AboveGeometry): readonly Point[] {
  return [
    ...arches.flatMap(({ edge }) => edge),
    ...lip,
    ...[home, ...moved.map(({ horn }) => horn)].flatMap((horn) => [...horn.rim.flat(), ...horn.outside.flat(), horn.tipMm]),
  ];
}

const placed = (line: FigureLine, place: (point: Point) => Point): FigureLine => ({ ...line, points: line.points.map(place) });
