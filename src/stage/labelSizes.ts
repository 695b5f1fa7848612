/** How large the stage's labels are, without asking the browser to lay the page out while script runs: a label's look and words keep their size. */
import type { LabelBoxes } from './labelLayout';

/** px. */
export interface LabelSize {
  readonly width: number;
  readonly height: number;
}

/**
 * Fills in the boxes of the labels, which stand in `boxes` from `first` on, and of the legend at `legendAt`, and goes on to do so: a font that arrives,
 * another theme or words that change with the frame change sizes. `known` is kept from one set of labels to the next, by their `keys` (look and
 * words); only what is not in it is read at once. `onChange` where a size has changed later. Returns how to stop.
 */
export function watchSizes(
  boxes: LabelBoxes,
  first: number,
  legendAt: number,
  labels: readonly (HTMLElement | null)[],
  keys: readonly string[],
  legend: HTMLElement | null,
  known: Map<string, LabelSize>,
  onChange: () => void,
): () => void {
  const places = new Map<Element, number>();
  const keep = (key: string, size: LabelSize): void => {
    // What has no size yet is told by the observer when it has, and says nothing of other looks.
    if (size.width > 0) known.set(wordsOf(key), size);
    known.set(key, size);
  };
  labels.forEach((element, index) => {
    if (element === null) return;
    places.set(element, first + index);
    const key = keys[index]!;
    // The same words in another look are nearly as large: near enough until the observer tells.
    const before = known.get(key) ?? known.get(wordsOf(key));
    const size = before ?? { width: element.offsetWidth, height: element.offsetHeight };
    if (before === undefined) keep(key, size);
    put(boxes, first + index, size);
  });
  const placeLegend = (): void => {
    if (legend === null) return;
    boxes.left[legendAt] = legend.offsetLeft;
    boxes.top[legendAt] = legend.offsetTop;
    put(boxes, legendAt, { width: legend.offsetWidth, height: legend.offsetHeight });
  };
  // After the page was laid out sizes cost nothing.
  const observer = new ResizeObserver((entries) => {
    let changed = false;
    for (const { target, borderBoxSize } of entries) {
      if (target === legend) {
        placeLegend();
        changed = true;
        continue;
      }
      const place = places.get(target);
      const [box] = borderBoxSize;
      const size = { width: Math.round(box?.inlineSize ?? 0), height: Math.round(box?.blockSize ?? 0) };
      // What is not shown at all has no size, and keeps the one that it had.
      if (place === undefined || size.width === 0) continue;
      keep(keys[place - first]!, size);
      if (boxes.width[place] === size.width && boxes.height[place] === size.height) continue;
      put(boxes, place, size);
      changed = true;
    }
    if (changed) onChange();
  });
  for (const element of places.keys()) observer.observe(element);
  if (legend !== null) observer.observe(legend);
  return () => observer.disconnect();
}

/** A key without its look: what names the label, and its words. */
const wordsOf = (key: string): string => key.replace(/ \w+ /, ' ');

function put(boxes: LabelBoxes, place: number, { width, height }: LabelSize): void {
  boxes.width[place] = width;
  boxes.height[place] = height;
}
