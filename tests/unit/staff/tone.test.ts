import { describe, expect, test } from 'vitest';
import { createTone } from '../../../src/staff/tone';

/** Writes down what is asked of an audio graph; time stands where the test puts it. */
function recordingAudio() {
  const calls: string[] = [];
  const audio = { currentTime: 0, opened: 0, closed: 0 };
  const parameter = (name: string) => {
    const self = {
      value: 0.03,
      setValueAtTime: (value: number, at: number) => (calls.push(`${name} set ${value} @${at.toFixed(2)}`), self),
      linearRampToValueAtTime: (value: number, at: number) => (calls.push(`${name} ramp ${value} @${at.toFixed(2)}`), self),
      setTargetAtTime: (value: number, at: number) => (calls.push(`${name} target ${value.toFixed(1)} @${at.toFixed(2)}`), self),
      cancelScheduledValues: (at: number) => (calls.push(`${name} cancel @${at.toFixed(2)}`), self),
    };
    return self;
  };
  const node = (more: object) => ({ connect: (next: unknown) => next, ...more });
  const open = () => {
    audio.opened += 1;
    return Object.assign(audio, {
      state: 'running',
      destination: node({}),
      createPeriodicWave: () => ({}),
      createOscillator: () =>
        node({
          frequency: parameter('pitch'),
          setPeriodicWave: () => undefined,
          start: () => calls.push('start'),
          stop: (at: number) => calls.push(`stop @${at.toFixed(2)}`),
        }),
      createBiquadFilter: () => node({ type: '', frequency: parameter('filter') }),
      createGain: () => node({ gain: parameter('gain') }),
      close: () => ((audio.closed += 1), Promise.resolve()),
    }) as unknown as AudioContext;
  };
  const about = (name: string) => calls.filter((call) => call.startsWith(name));
  return { audio, calls, about, open };
}

describe('tone', () => {
  test('opens no audio before the first start', () => {
    const { audio, open } = recordingAudio();
    const tone = createTone(open);
    tone.glide(60);
    tone.stop();
    expect(audio.opened).toBe(0);
    tone.start(69, 1);
    expect(audio.opened).toBe(1);
  });

  test('sounds A4 at 440 Hz (ISO 16), quietly, and fades by itself', () => {
    const { about, open } = recordingAudio();
    createTone(open).start(69, 1);
    expect(about('pitch')).toEqual(['pitch set 440 @0.00']);
    expect(about('gain')).toEqual(['gain set 0 @0.00', 'gain ramp 0.05 @0.06', 'gain target 0.0 @0.82']);
    expect(about('stop')).toEqual(['stop @1.18']);
  });

  test('a start while it sounds moves the same tone and holds it longer', () => {
    const { audio, calls, about, open } = recordingAudio();
    const tone = createTone(open);
    tone.start(69, 1);
    audio.currentTime = 0.5;
    tone.start(81, 2);
    expect(calls.filter((call) => call === 'start')).toHaveLength(1);
    expect(about('pitch').at(-1)).toBe('pitch target 880.0 @0.50');
    expect(about('gain').slice(3)).toEqual(['gain cancel @0.50', 'gain set 0.03 @0.50', 'gain ramp 0.05 @0.53', 'gain target 0.0 @2.32']);
  });

  test('stop fades from the present level without rising first', () => {
    const { audio, about, open } = recordingAudio();
    const tone = createTone(open);
    tone.start(69, 5);
    audio.currentTime = 1;
    tone.stop();
    expect(about('gain').slice(3)).toEqual(['gain cancel @1.00', 'gain set 0.03 @1.00', 'gain target 0.0 @1.00']);
    tone.glide(70);
    expect(about('pitch')).toHaveLength(1);
  });

  test('a tone after the last one faded is a new one', () => {
    const { audio, calls, open } = recordingAudio();
    const tone = createTone(open);
    tone.start(69, 1);
    audio.currentTime = 3;
    tone.start(70, 1);
    expect(calls.filter((call) => call === 'start')).toHaveLength(2);
  });

  test('close gives the device back and a later start opens it anew', () => {
    const { audio, open } = recordingAudio();
    const tone = createTone(open);
    tone.start(69, 1);
    tone.close();
    expect(audio.closed).toBe(1);
    tone.start(69, 1);
    expect(audio.opened).toBe(2);
  });

  test('without audio, or where it is refused, nothing throws', () => {
    const refused = () => {
      throw new Error('refused');
    };
    for (const tone of [createTone(), createTone(() => null), createTone(refused)]) {
      expect(() => {
        tone.start(60, 1);
        tone.glide(61);
        tone.stop();
        tone.close();
      }).not.toThrow();
    }
  });
});
