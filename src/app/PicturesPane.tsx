/** The part on pictures and films joined to the page. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import type { LiveFrame } from '../core/analysis';
import { fileNamePart } from '../core/fileNames';
import { createLive } from '../core/live';
import { noteAsShown, shownMidi } from '../notebook/noteNames';
import { FILM_SIZES, type PictureChoices, PNG_WIDTHS, PicturesPart } from '../notebook/share/PicturesPart';
import { captionWords } from '../notebook/share/pictureWords';
import type { FilmCourse } from '../pictures/filmPlan';
import { SOUND_RATE } from '../pictures/toneSamples';
import { wavFile } from '../pictures/wavFile';
import { type FilmFormat, filmFormats } from '../pictures/filmFormats';
import { download } from '../print/saveFigure';
import { drawsInSoftware, supportsWebGL2 } from '../stage/webgl';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { useUnhurriedStageProps } from './useStageProps';
import { postureOf } from './describe';
import { PASS_MS } from './playhead';
import { pathWays } from './session';
import { type PictureScene, filmOf, pngOf, soundOf, svgOf } from './takePictures';
import { useEntry } from './useEntry';
import { useLabelTick } from './useLabelTick';
import '../notebook/share/leaving.css';
import { sayPictures } from '../words/pictures';

const FIRST_CHOICES: Omit<PictureChoices, 'withLabel'> = {
  flat: false, pngWidth: PNG_WIDTHS[1], filmSize: FILM_SIZES[0], container: null, andBack: true, withSound: true,
};
/** Stillness at the beginning and the end of a film, s. */
const REST_S = 1;
/** A note this near to a pitch, semitones, is shown as it was written down. */
const AT_NOTE = 0.05;

export function PicturesPane(): ReactNode {
  const { playhead } = useSession();
  const props = useUnhurriedStageProps();
  const analysis = useUnhurried((state) => state.analysis);
  const settings = useApp((state) => state.settings);
  const entry = useEntry();
  const hasStage = supportsWebGL2();
  const [chosen, setChosen] = useState({ ...FIRST_CHOICES, flat: !hasStage });
  const [withLabel, tickLabel] = useLabelTick();
  const choices: PictureChoices = { ...chosen, withLabel };
  const [busy, setBusy] = useState(false);
  const [film, setFilm] = useState<{ readonly part: number; readonly secondsLeft: number | null } | null>(null);
  const [message, setMessage] = useState('');
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);
  const filmWidthPx = Number(choices.filmSize.split(' ')[0]);
  const formats = useFormats(filmWidthPx);

  const label = analysis?.record.player.label ?? '';
  const scene = useMemo((): PictureScene | null => {
    if (props === null || analysis === null) return null;
    const home = analysis.home.follow.pose;
    const posture = postureOf(analysis.record.player.instrument);
    return {
      props,
      flat: choices.flat,
      caption({ midi, travel, follow, shown }) {
        const read = midi === null ? undefined : analysis.readings.find((one) => Math.abs(one.midi - midi) <= AT_NOTE);
        const note = midi === null ? '–' : read === undefined ? shownMidi(Math.round(midi), entry.shownTransposition, entry.naming) : noteAsShown(read.note, entry);
        const isHeld = settings.horn === 'held';
        const swings = isHeld ? follow.pose : shown;
        const change = { elevationDeg: swings.elevationDeg - home.elevationDeg, lateralDeg: swings.lateralDeg - home.lateralDeg };
        return { note, words: captionWords(note, travel, change, posture, isHeld), title: choices.withLabel ? label : '' };
      },
    };
  }, [props, analysis, entry, choices.flat, choices.withLabel, label, settings.horn]);
  const course = useMemo((): FilmCourse | null => {
    const notes = analysis?.readings.map(({ midi }) => midi) ?? [];
    const [lowMidi, highMidi] = [Math.min(...notes), Math.max(...notes)];
    if (analysis === null || !(highMidi > lowMidi)) return null;
    return { lowMidi, highMidi, notes, ...pathWays(analysis.branches, settings.plays), andBack: choices.andBack, passS: PASS_MS / 1000 / settings.speed, restS: REST_S };
  }, [analysis, settings.plays, settings.speed, choices.andBack]);

  const nameOf = (what: 'picture' | 'path' | 'sound', ending: string): string =>
    `${choices.withLabel ? fileNamePart(label) : 'rimpath'}-${sayPictures(`file-${what}`)}.${ending}`;
  const saving = async (name: string, make: () => Promise<Blob | null>): Promise<void> => {
    try {
      const file = await make();
      if (file === null) return setMessage(sayPictures('calledOff'));
      download(file, name);
      setMessage(sayPictures('savedAs', { name }));
    } catch {
      setMessage(sayPictures('notMade', { name }));
    }
  };
  const soon = (name: string, make: () => Promise<Blob>): void => {
    setBusy(true);
    setMessage(sayPictures('drawing'));
    void saving(name, make).finally(() => setBusy(false));
  };
  const picture = (name: string, make: (scene: PictureScene, frame: LiveFrame) => Promise<Blob>): void => {
    const frame = playhead.current();
    if (scene !== null && frame !== null) soon(name, () => make(scene, frame));
  };
  const makeFilm = (): void => {
    const format = formats?.find(({ container }) => container === choices.container) ?? formats?.[0];
    if (scene === null || analysis === null || course === null || format === undefined) return;
    const control = new AbortController();
    stop.current = control;
    playhead.pause();
    const began = performance.now();
    setMessage('');
    setFilm({ part: 0, secondsLeft: null });
    void saving(nameOf('path', format.container), () =>
      filmOf(scene, createLive(analysis, true), { horn: settings.horn, view: settings.view }, {
        course,
        widthPx: filmWidthPx,
        format,
        withSound: choices.withSound,
        signal: control.signal,
        onProgress: (part) => setFilm({ part, secondsLeft: part < TOLD_FROM ? null : ((performance.now() - began) / 1000) * (1 / part - 1) }),
      })).finally(() => setFilm(null));
  };

  return (
    <PicturesPart
      choices={choices}
      canTake={scene !== null}
      hasStage={hasStage}
      isSlow={drawsInSoftware()}
      hasLabel={label !== ''}
      formats={formats?.map(({ container, sound }) => ({ container, silent: sound === null })) ?? null}
      hasPath={course !== null}
      busy={busy}
      film={film}
      message={message}
      onChoose={({ withLabel: wished, ...some }) => {
        if (wished !== undefined) tickLabel(wished);
        setChosen((now) => ({ ...now, ...some }));
      }}
      onPng={() => picture(nameOf('picture', 'png'), (of, frame) => pngOf(of, frame, Number(choices.pngWidth)))}
      onSvg={() => picture(nameOf('picture', 'svg'), svgOf)}
      onFilm={makeFilm}
      onSound={() => {
        if (course === null) return;
        soon(nameOf('sound', 'wav'), async () => new Blob([wavFile(await soundOf(course, new AbortController().signal), SOUND_RATE)], { type: 'audio/wav' }));
      }}
      onCancel={() => stop.current?.abort()}
    />
  );
}

/** Below this part of a film nothing can be said of the time that is left. */
const TOLD_FROM = 0.02;

/** What this browser can write at a width of 16 : 9; null until it is known. */
function useFormats(widthPx: number): readonly FilmFormat[] | null {
  const [formats, setFormats] = useState<readonly FilmFormat[] | null>(null);
  useEffect(() => {
    let current = true;
    void filmFormats(widthPx, (widthPx * 9) / 16).then((found) => current && setFormats(found));
    return () => void (current = false);
  }, [widthPx]);
  return formats;
}
