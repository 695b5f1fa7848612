/** Between the page's settings and how a shared picture was looked at. What the reader chose about words, theme and sound is their own. */
import type { PictureView } from '../records/sharedPicture';
import type { Settings } from './settings';
import type { AppState } from './store';

export type ViewSettings = Pick<Settings, 'camera' | 'view' | 'horn' | 'cutOpen' | 'toothNumbers'>;

export function viewOf({ settings, selected }: Pick<AppState, 'settings' | 'selected'>): PictureView {
  const { camera, view, horn, cutOpen, toothNumbers } = settings;
  return { camera, angles: view, horn, selected, cutOpen, toothNumbers };
}

export function settingsOf({ camera, angles, horn, cutOpen, toothNumbers }: PictureView): ViewSettings {
  return { camera, view: angles, horn, cutOpen, toothNumbers };
}
