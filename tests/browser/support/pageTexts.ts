/** Everything on a page that is read by somebody. */
import type { Page } from 'playwright-core';

/** Texts between tags, folded away or not, and attributes that are shown or read out; without what says itself to be in another language. */
export const pageTexts = (page: Page): Promise<string[]> =>
  page.evaluate((attributes) => {
    const own = (element: Element): boolean => element.closest('script, style') === null && element.closest('[lang]') === document.documentElement;
    const texts: string[] = [];
    const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (words.nextNode() !== null) if (own(words.currentNode.parentElement!)) texts.push(words.currentNode.textContent!);
    for (const element of document.querySelectorAll('body *')) {
      if (own(element)) for (const name of attributes) texts.push(element.getAttribute(name) ?? '');
    }
    return texts.filter((text) => text.trim() !== '');
  }, ['aria-label', 'aria-description', 'aria-roledescription', 'aria-valuetext', 'title', 'alt', 'placeholder', 'label']);
