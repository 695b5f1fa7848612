/** The figure from the side, laid out on paper. */
import type { Analysis } from '../core/analysis';
import { toRadians } from '../core/frame';
import { type Figure, type FigureLine, type FigureSize, type FigureText, type KeyRow, KEY_ROW_MM, TEXT_MM, TITLE_MM, drawKey, drawMoved, drawScale, drawSwing, fitInto, spreadDown } from './figure';
import { type Point, axisLengthMm } from './hornShape';
import { type Posture, swingMoved } from './instrumentWords';
import { fixed } from '../words/numbers';
import { sayPrint } from '../words/print';
import { type SideGeometry, sideGeometry } from './sideGeometry';

export interface FigureWords {
  readonly posture: Posture;
  /** A sounding note as the reader sees it. */
  noteLabel(note: string): string;
}

export function sideFigure(analysis: Analysis, words: FigureWords, size: FigureSize): Figure {
  const geometry = sideGeometry(analysis);
  const radius = axisLengthMm(analysis.record.rim);
  const key = keyRows(analysis, geometry, words);
  const roomBottom = size.heightMm - key.length * KEY_ROW_MM - 2;
  const fit = fitInto({ left: 0.5, right: size.widthMm - BESIDE_MM, top: TITLE_MM + 3, bottom: roomBottom }, everyPoint(geometry));
  const swings = geometry.moved.map(({ swing }) => drawSwing(fit, swing, radius, toRadians));
  const numbers = spreadDown(
    geometry.moved.map(({ reading, horn, swing }): FigureText => {
      const [x, y] = fit.place(horn.tipMm);
      const beyond = Math.max(x, fit.place([swing.centreMm[0] + radius * Math.cos(toRadians(swing.fromDeg)), 0])[0]);
      const degrees = fixed(Math.abs(reading.changeFromHome.elevationDeg), 1);
      return { kind: 'predicted', at: [beyond + 2, y + 0.35 * TEXT_MM], anchor: 'start', text: `${words.noteLabel(reading.note)} ${degrees}°` };
    }),
    TEXT_MM * 1.25,
  );
  const drawnKey = drawKey(key, size);
  const scaleBar = drawScale(fit, size, roomBottom);
  const keyWords = key.flat().map(({ text }) => text).join('; ');
  return {
    ...size,
    description: sayPrint('sideDescribed', { key: keyWords }),
    lines: [
      ...mouthLines(geometry).map((line) => placed(line, fit.place)),
      ...homeLines(geometry).map((line) => placed(line, fit.place)),
      ...geometry.moved.toReversed().flatMap((one) => drawMoved(fit, one, one === geometry.moved[0])),
      ...swings.flatMap(({ lines }) => lines),
      ...scaleBar.lines,
      ...drawnKey.lines,
    ],
    marks: [
      ...geometry.moved.map(({ horn }) => ({ kind: 'predicted' as const, at: fit.place(horn.tipMm) })),
      ...swings.flatMap(({ marks }) => marks),
      ...drawnKey.marks,
    ],
    texts: [{ kind: 'title', at: [0, TITLE_MM], anchor: 'start', text: sayPrint('fromSide') }, ...numbers, ...scaleBar.texts, ...drawnKey.texts],
  };
}

/** "G5: bell 3.1° up", by the instrument's own words. */
export function movedWords(note: string, posture: Posture, axis: 'elevation' | 'lateral', valueDeg: number): string {
  return sayPrint('noteMoved', { note, words: swingMoved(posture, axis, valueDeg) });
}

/** What the dashed line is called: a horn on the lap stays, and it is the head that would be held. */
export const heldWords = (posture: Posture): string => sayPrint('heldAtHome', { posture });

export function homeWords({ home }: Analysis, words: FigureWords): string {
  return home.note === null ? sayPrint('home') : sayPrint('homeNote', { note: words.noteLabel(home.note) });
}

/** Kept free at the right for the numbers beside the arcs. */
const BESIDE_MM = 19;

function keyRows(analysis: Analysis, { moved }: SideGeometry, words: FigureWords): readonly KeyRow[] {
  return [
    ...moved.map(({ role, reading }, index): KeyRow => [{
      kind: index === 0 ? 'moved' : 'second-axis',
      textKind: 'predicted',
      text: sayPrint('roleMoved', { role, moved: movedWords(words.noteLabel(reading.note), words.posture, 'elevation', reading.changeFromHome.elevationDeg) }),
    }]),
    [{ kind: 'home', text: homeWords(analysis, words) }, ...(moved.length === 0 ? [] : [{ kind: 'held' as const, text: heldWords(words.posture) }])],
    ...(moved.some(({ swing }) => swing.measuredDeg !== null) ? [[{ kind: 'measured' as const, text: sayPrint('asMeasured') }]] : []),
  ];
}

function mouthLines({ faces, lips }: SideGeometry): readonly FigureLine[] {
  return [
    ...lips.flatMap((points): FigureLine[] => [{ kind: 'lip-body', points, closed: true }, { kind: 'lip', points: openAtTheFarEnd(points) }]),
    ...faces.flatMap(({ crown, gum, inside }): FigureLine[] => [
      ...(gum.length === 0 ? [] : [{ kind: 'gum-body' as const, points: [...gum, ...gumBack(gum)], closed: true }, { kind: 'gum' as const, points: gum }]),
      { kind: 'tooth', points: [...crown, ...inside], closed: inside.length > 0 },
    ]),
  ];
}

/** A lip goes on beyond the cut: its outline (inner side out from the lip line, outer side back) is drawn without that end. */
const openAtTheFarEnd = (points: readonly Point[]): readonly Point[] => [...points.slice(points.length / 2), ...points.slice(0, points.length / 2)];

/** How far behind the face the gum is tinted, mm: a hint. */
const GUM_BODY_MM = 9;

const gumBack = (gum: readonly Point[]): readonly Point[] => gum.map(([z, y]): Point => [z - GUM_BODY_MM, y]).reverse();

function homeLines({ home }: SideGeometry): readonly FigureLine[] {
  return [
    ...home.rim.map((points): FigureLine => ({ kind: 'home', points, closed: true })),
    ...home.outside.map((points): FigureLine => ({ kind: 'home', points })),
    { kind: 'home-axis', points: [home.centreMm, home.tipMm] },
  ];
}

function everyPoint({ faces, lips, home, moved }: SideGeometry): readonly Point[] {
  return [
    ...faces.flatMap(({ crown, gum, inside }) => [...crown, ...gum, ...inside, ...gumBack(gum)]),
    ...lips.flat(),
    ...[home, ...moved.map(({ horn }) => horn)].flatMap((horn) => [...horn.rim.flat(), ...horn.outside.flat(), horn.tipMm]),
  ];
}

const placed = (line: FigureLine, place: (point: Point) => Point): FigureLine => ({ ...line, points: line.points.map(place) });
