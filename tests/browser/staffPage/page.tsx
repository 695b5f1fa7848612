/**
 * Staff and charts alone, with a record that is invented for the tests. The address says what is shown
 * (?show=staff|angles|travel|face&theme=…&mirror&fail&swing&notes=…); what the parts report is in `window.reported`.
 */
import { Profiler, useState } from 'react';
import { createRoot } from 'react-dom/client';
import '../../../src/app/styles/theme.css';
import '../../../src/app/styles/base.css';
import type { LiveFrame, LiveSource } from '../../../src/core/analysis';
import { midiOf } from '../../../src/core/pitch';
import { AngleChart } from '../../../src/notebook/AngleChart';
import { FacePlot } from '../../../src/notebook/chart/FacePlot';
import type { Travel, TravelPoint } from '../../../src/notebook/chart/props';
import { TravelChart } from '../../../src/notebook/chart/TravelChart';
import { Staff } from '../../../src/staff/Staff';

declare global {
  interface Window {
    reported: {
      events: unknown[];
      renders: number;
      play: (midi: number | null, travel?: Travel) => void;
    };
  }
}

const query = new URLSearchParams(location.search);
document.documentElement.dataset['theme'] = query.get('theme') ?? 'paper';

const listeners = new Set<() => void>();
let frame: LiveFrame | null = null;
const live: LiveSource = {
  current: () => frame,
  subscribe: (listener) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
};

const reported: Window['reported'] = {
  events: [],
  renders: 0,
  play(midi, travel = { upMm: 0, rightMm: 0 }) {
    // The parts under test read the pitch and the travel of a frame and nothing else.
    frame = { midi, travel, direction: null } as LiveFrame;
    listeners.forEach((listener) => listener());
  },
};
window.reported = reported;
const report = (...event: unknown[]): void => void reported.events.push(event);

const labels = (query.get('notes') ?? 'F3 Bb3 D4 F4 Bb4').split(' ');
const firstPoints: TravelPoint[] = labels.map((label, index) => ({
  readingIndex: index + 10,
  midi: midiOf(label),
  label,
  upMm: index - 1,
  rightMm: (1 - index) / 2,
  sdMm: 0.4,
  rightSdMm: 0.4,
}));
const trumpet = { name: 'Trumpet in B flat', clef: 'treble', transpositionSemitones: 2 } as const;
const refuse = (): Promise<never> => Promise.reject(new Error('not to be had'));

function Parts() {
  const [points, setPoints] = useState(firstPoints);
  const [selected, setSelected] = useState<number | null>(11);
  const onSelect = (readingIndex: number): void => {
    report('select', readingIndex);
    setSelected(readingIndex);
  };
  const onTravel = (readingIndex: number, travel: Travel): void => {
    report('travel', readingIndex, travel);
    setPoints((known) => known.map((point) => (point.readingIndex === readingIndex ? { ...point, ...travel } : point)));
  };
  const shared = { live, selected, onSelect };
  const members = points.map((_, index) => index);
  const editing = { ...shared, points, ways: [{ direction: null, members, curve: points }], onTravel, onTravelEnd: () => report('travelEnd') };
  const angles = points.map((point, index) => ({
    ...point,
    predicted: { elevationDeg: point.upMm, lateralDeg: 2 * point.rightMm },
    band: { elevationSdDeg: 1.4, lateralSdDeg: 0.6 },
    measured: index % 2 === 0 ? { elevationDeg: point.upMm + 0.5, lateralDeg: 2 * point.rightMm, sdDeg: 1.5, lateralSdDeg: 1.5 } : null,
  }));
  const show = query.get('show') ?? 'staff';
  if (show === 'angles') return <AngleChart points={angles} ways={[{ direction: null, members, curve: [] }]} {...shared} />;
  if (show === 'travel') return <TravelChart {...editing} />;
  if (show === 'face') return <FacePlot {...editing} mirror={query.has('mirror')} />;
  return (
    <Staff
      notes={points}
      instrument={trumpet}
      {...shared}
      onScrub={(midi, _direction, nearest) => {
        report('scrub', midi);
        setSelected(nearest);
      }}
      onScrubEnd={() => report('scrubEnd')}
      showSwing={query.has('swing') ? angles.map(({ predicted }) => predicted) : undefined}
      loadEngraver={query.has('fail') ? refuse : undefined}
    />
  );
}

createRoot(document.getElementById('root') as HTMLElement).render(
  <Profiler id="parts" onRender={() => (reported.renders += 1)}>
    <Parts />
  </Profiler>,
);
