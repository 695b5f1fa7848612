/** Where two stacked panels over one pitch axis stand, in CSS pixels. Pure; both panels share one scale per unit. */
import {
  pitchScale,
  placeLabels,
  roundDomain,
  roundStep,
  ticks,
  toPixels,
  type AxisLabel,
  type Scale,
} from './scale';
import { homeRoomPx } from './words';

export type Domain = readonly [number, number];

export interface PanelLayout {
  readonly topPx: number;
  readonly bottomPx: number;
  readonly scale: Scale;
  readonly ticks: readonly number[];
}

export interface PanelsLayout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly plotLeftPx: number;
  readonly plotRightPx: number;
  readonly pitch: Scale;
  readonly noteXs: readonly number[];
  readonly labels: readonly AxisLabel[];
  readonly axisTopPx: number;
  readonly tickStep: number;
  readonly panels: readonly [PanelLayout, PanelLayout];
}

const TITLE_PX = 24;
export const AXIS_ROW_PX = 18;
const LEFT_PX = 36;
/** The outermost marks stay clear of the frame. */
const INSET_PX = 16;
const GAP_PX = 6;
/** Lines with numbers of 12 px come no closer than this. */
const TICK_PX = 16;
/** At 13 px a character of a note name takes about this much. */
const LABEL_CHARACTER_PX = 8;

/** The domains of two panels in one unit: round, with home in both, and neither so flat that it cannot be read. */
export function pairOfDomains(first: readonly number[], second: readonly number[], least: number): [Domain, Domain] {
  const alone = [roundDomain(first, least), roundDomain(second, least)] as const;
  const larger = Math.max(...alone.map(([low, high]) => high - low));
  const both = Math.max(least, 0.4 * larger);
  return [roundDomain(first, both), roundDomain(second, both)];
}

export function layoutPanels(
  widthPx: number,
  domains: readonly [Domain, Domain],
  notes: readonly { readonly midi: number; readonly label: string }[],
  selectedIndex: number | null,
): PanelsLayout {
  const plotLeftPx = LEFT_PX;
  const plotRightPx = Math.max(plotLeftPx + 2 * INSET_PX + 1, widthPx - homeRoomPx());
  const plotHeightPx = Math.round(Math.min(300, Math.max(200, widthPx * 0.5)));
  const spans = domains.map(([low, high]) => high - low) as [number, number];
  const perUnitPx = plotHeightPx / (spans[0] + spans[1]);
  const tickStep = roundStep(spans[0] + spans[1], plotHeightPx / TICK_PX);
  const firstTop = TITLE_PX;
  const firstBottom = firstTop + spans[0] * perUnitPx;
  const secondTop = firstBottom + GAP_PX + TITLE_PX;
  const secondBottom = secondTop + spans[1] * perUnitPx;
  const pitch = pitchScale(notes.map(({ midi }) => midi), plotLeftPx + INSET_PX, plotRightPx - INSET_PX);
  const noteXs = notes.map(({ midi }) => toPixels(pitch, midi));
  const named = namedNotes(notes, selectedIndex);
  const ends = [Math.min(...notes.map(({ midi }) => midi)), Math.max(...notes.map(({ midi }) => midi))];
  const labels = placeLabels(
    named.map((index) => {
      const { label, midi } = notes[index]!;
      return {
        xPx: noteXs[index]!,
        widthPx: label.length * LABEL_CHARACTER_PX + 4,
        priority: index === selectedIndex ? 0 : ends.includes(midi) ? 1 : 2,
      };
    }),
  ).map((label) => ({ ...label, index: named[label.index]! }));
  const axisTopPx = secondBottom + 4;
  const rows = Math.max(1, ...labels.map(({ row }) => row + 1));
  return {
    widthPx,
    heightPx: Math.ceil(axisTopPx + rows * AXIS_ROW_PX + 2),
    plotLeftPx,
    plotRightPx,
    pitch,
    noteXs,
    labels,
    axisTopPx,
    tickStep,
    panels: [
      panel(firstTop, firstBottom, domains[0], tickStep),
      panel(secondTop, secondBottom, domains[1], tickStep),
    ],
  };
}

/** A pitch that is met on both ways is named once: by the selected note, else by the first. */
function namedNotes(notes: readonly { readonly midi: number }[], selectedIndex: number | null): number[] {
  const selectedMidi = selectedIndex === null ? null : notes[selectedIndex]?.midi;
  return notes.flatMap(({ midi }, index) => {
    const stands = midi === selectedMidi ? index === selectedIndex : notes.findIndex((other) => other.midi === midi) === index;
    return stands ? [index] : [];
  });
}

function panel(topPx: number, bottomPx: number, domain: Domain, step: number): PanelLayout {
  const parts = (domain[1] - domain[0]) / step;
  return { topPx, bottomPx, scale: { from: domain, to: [bottomPx, topPx] }, ticks: ticks(domain, Math.max(1, parts)) };
}
