/** Another page that stands for itself, from the app's own server or from this page where it is one already. */
import { fileNamePart } from '../core/fileNames';
import { pictureOf, pictureText } from '../records/sharedPicture';
import { ONE_FILE_NAME, pageWithPicture } from './oneFilePage';
import { ownPage } from './ownPage';
import type { Given } from './useGiven';
import { sayShare } from '../words/share';

/** Rejects with words for the reader. `get` reads the page for it, beside the app. */
export async function oneFileOf({ player, lessonId, view, choice }: Given, day: string, get = builtPage): Promise<{ readonly name: string; readonly file: Blob }> {
  const page = pageWithPicture(ownPage ?? (await get()), pictureText(pictureOf(player, lessonId, view, choice)));
  // A server that answers every question with its own page says nothing of what is missing.
  if (page === null) throw new Error(sayShare('notThere'));
  const label = choice.ticks.label ? fileNamePart(player.label, sayShare('picture')) : sayShare('picture');
  return { name: `rimpath-${label}-${day}.html`, file: new Blob([page], { type: 'text/html' }) };
}

async function builtPage(): Promise<string> {
  let response: Response;
  try {
    response = await fetch(new URL(ONE_FILE_NAME, document.baseURI));
  } catch {
    throw new Error(sayShare('notFetched'));
  }
  if (!response.ok) throw new Error(sayShare('notThere'));
  return response.text();
}
