/**
 * A quiet tone that goes along with the playing path: a few harmonics that open a little at the attack, as brass does.
 * Nothing sounds and no audio device is opened before `start` is called, which the app does after a gesture only.
 */
import { hertz } from '../core/pitch';

export interface Tone {
  /** Begins a tone at a (fractional) MIDI pitch that fades by itself after `seconds`; one that still sounds moves there. */
  start(midi: number, seconds: number): void;
  /** Slides a sounding tone to another pitch; without one nothing happens. */
  glide(midi: number): void;
  /** Lets the tone fade. */
  stop(): void;
  /** Gives the audio device back; the tone can be started again. */
  close(): void;
}

/** Never throws: where the browser has no audio, or refuses it, every call does nothing. */
export function createTone(openAudio: () => AudioContext | null = openDefaultAudio): Tone {
  let audio: AudioContext | null = null;
  let voice: Voice | null = null;
  return {
    start: quietly((midi: number, seconds: number) => {
      audio ??= openAudio();
      if (!audio) return;
      if (audio.state === 'suspended') void audio.resume().catch(() => undefined);
      if (voice && voice.endsAt > audio.currentTime) glideTo(voice, audio, midi);
      else voice = openVoice(audio, midi);
      holdFor(voice, audio, Math.max(seconds, ATTACK_S + RELEASE_S));
    }),
    glide: quietly((midi: number) => {
      if (voice && audio) glideTo(voice, audio, midi);
    }),
    stop: quietly(() => {
      if (voice && audio) fade(voice, audio);
      voice = null;
    }),
    close: quietly(() => {
      const closing = audio;
      audio = null;
      voice = null;
      if (closing) void closing.close().catch(() => undefined);
    }),
  };
}

interface Voice {
  readonly oscillator: OscillatorNode;
  readonly filter: BiquadFilterNode;
  readonly gain: GainNode;
  /** When the fade is over, in the audio clock's seconds. */
  endsAt: number;
}

/** Amplitudes of harmonics 1, 2, 3 …: our choice by ear of a soft brass sound, no measured instrument. */
const HARMONICS = [1, 0.72, 0.5, 0.3, 0.18, 0.1, 0.06];
/** −26 dB of full scale: under a speaking voice. */
const PEAK_GAIN = 0.05;
const ATTACK_S = 0.06;
const RELEASE_S = 0.18;
/** Time constant of a slide: quick, without a step that clicks. */
const GLIDE_S = 0.03;
/** The low-pass opens to this many times the pitch; at the attack it starts lower. */
const BRIGHTNESS = 6;

function openVoice(audio: AudioContext, midi: number): Voice {
  const now = audio.currentTime;
  const pitch = hertz(midi);
  const oscillator = audio.createOscillator();
  oscillator.setPeriodicWave(
    audio.createPeriodicWave(new Float32Array(HARMONICS.length + 1), Float32Array.from([0, ...HARMONICS])),
  );
  oscillator.frequency.setValueAtTime(pitch, now);
  const filter = audio.createBiquadFilter();
  filter.type = 'lowpass';
  filter.frequency.setValueAtTime(pitch * 1.5, now);
  filter.frequency.setTargetAtTime(pitch * BRIGHTNESS, now, ATTACK_S);
  const gain = audio.createGain();
  gain.gain.setValueAtTime(0, now);
  gain.gain.linearRampToValueAtTime(PEAK_GAIN, now + ATTACK_S);
  oscillator.connect(filter).connect(gain).connect(audio.destination);
  oscillator.start(now);
  return { oscillator, filter, gain, endsAt: Infinity };
}

function glideTo(voice: Voice, audio: AudioContext, midi: number): void {
  const pitch = hertz(midi);
  voice.oscillator.frequency.setTargetAtTime(pitch, audio.currentTime, GLIDE_S);
  voice.filter.frequency.setTargetAtTime(pitch * BRIGHTNESS, audio.currentTime, GLIDE_S);
}

/** The tone is held and then faded so that it ends `seconds` from now; `seconds` covers attack and release at least. */
function holdFor(voice: Voice, audio: AudioContext, seconds: number): void {
  const now = audio.currentTime;
  if (Number.isFinite(voice.endsAt)) planAnew(voice, now).linearRampToValueAtTime(PEAK_GAIN, now + GLIDE_S);
  endBy(voice, now + seconds);
}

/** The tone fades from now on. */
function fade(voice: Voice, audio: AudioContext): void {
  planAnew(voice, audio.currentTime);
  endBy(voice, audio.currentTime + RELEASE_S);
}

/** Forgets the planned course of the gain, going on from the level that is heard now. */
function planAnew(voice: Voice, now: number): AudioParam {
  const { gain } = voice.gain;
  const level = gain.value;
  return gain.cancelScheduledValues(now).setValueAtTime(level, now);
}

function endBy(voice: Voice, endsAt: number): void {
  voice.endsAt = endsAt;
  voice.gain.gain.setTargetAtTime(0, endsAt - RELEASE_S, RELEASE_S / 4);
  voice.oscillator.stop(endsAt + RELEASE_S);
}

function quietly<A extends unknown[]>(action: (...values: A) => void): (...values: A) => void {
  return (...values) => {
    try {
      action(...values);
    } catch {
      // Sound is an extra: a browser that refuses it must not stop the playing path.
    }
  };
}

function openDefaultAudio(): AudioContext | null {
  return typeof AudioContext === 'undefined' ? null : new AudioContext();
}
