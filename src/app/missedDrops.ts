/** Files dropped beside every place that takes them: a browser would open one in the page's stead, and whatever is not kept yet would be gone. */
import { sayApp } from '../words/app';
import { sayMarking } from '../words/marking';

/** The parts of `window` that are used. */
export type DropsTarget = Pick<EventTarget, 'addEventListener' | 'removeEventListener'>;

/** `onMissed`: the names of what was dropped where nothing takes it. Answers how to end it. */
export function catchMissedDrops(target: DropsTarget, onMissed: (names: readonly string[]) => void): () => void {
  const over = (event: Event): void => {
    if (!event.defaultPrevented && hasFiles(event)) event.preventDefault();
  };
  const drop = (event: Event): void => {
    if (event.defaultPrevented || !hasFiles(event)) return;
    event.preventDefault();
    onMissed([...((event as DragEvent).dataTransfer?.files ?? [])].map(({ name }) => name));
  };
  target.addEventListener('dragover', over);
  target.addEventListener('drop', drop);
  return () => {
    target.removeEventListener('dragover', over);
    target.removeEventListener('drop', drop);
  };
}

/** Text that is dragged within a field stays the browser's affair. */
const hasFiles = (event: Event): boolean => (event as DragEvent).dataTransfer?.types.includes('Files') === true;

export const missedWords = (names: readonly string[]): string =>
  sayMarking('missed', { count: names.length, files: names.join(', '), chapter: sayApp('measureChapter') });
