import { type ReactNode, memo } from 'react';
import type { Analysis } from '../core/analysis';
import { fitBehind } from '../core/ownArch/ownArch';
import { scannedJaw } from '../core/ownArch/scannedArch';
import type { ArchSpec, LipSpec, PlayerRecord, RimSpec } from '../core/specs';
import { sayNotebook } from '../words/notebook';
import { ArchFields } from './ArchFields';
import { Caution } from './Cautions';
import { Choice, Picker } from './Choice';
import { Field, RequiredField } from './Fields';
import { rimWidthMm } from './entry';
import { formatNumber } from './numberText';
import type { ChangeRecord, NotebookLibrary } from './props';
import { FIELDS, contourReachMm, diameterLimits } from './ranges';
import { without } from './recordEdits';

export interface PlayerChapterProps {
  readonly record: PlayerRecord;
  /** The last that could be computed; tells where home stands when the record does not. */
  readonly analysis: Analysis | null;
  readonly library: NotebookLibrary;
  noteLabel(note: string): string;
  onChange: ChangeRecord;
  onSettle(): void;
  /** Ways to an arch of one's own; always the same element. */
  readonly ownArch?: ReactNode;
}

/** Who plays, on what, with which teeth, rim and lips, and where home is. */
export const PlayerChapter = memo(PlayerChapterParts, showsTheSame);

function PlayerChapterParts(props: PlayerChapterProps): ReactNode {
  const { record, library, onChange, onSettle } = props;
  const instrument = library.instruments.find((one) => one.id === record.player.instrument);
  return (
    <section className="chapter" id="player" aria-labelledby="player-heading">
      <h2 id="player-heading">{sayNotebook('playerHeading')}</h2>
      <div className="fields">
        <div className="picker">
          <label htmlFor="player-label">{sayNotebook('nameOrLabel')}</label>
          <input
            id="player-label"
            type="text"
            autoComplete="off"
            maxLength={200}
            value={record.player.label}
            onChange={(event) =>
              onChange((now) => ({ ...now, player: { ...record.player, label: event.target.value } }), 'player-label')}
            onBlur={onSettle}
          />
        </div>
        <Picker
          label={sayNotebook('instrument')}
          options={[
            ...library.instruments.map(({ id, name }) => ({ value: id, label: name })),
            ...(instrument === undefined ? [{ value: record.player.instrument, label: record.player.instrument }] : []),
          ]}
          value={record.player.instrument}
          hint={instrument?.posture === 'lap' ? sayNotebook('onTheLap') : undefined}
          onChange={(id) => onChange((now) => withInstrument(now, library, id))}
        />
      </div>
      <HomePart {...props} />
      <RimPart {...props} />
      <ArchPart {...props} />
      <LipsPart {...props} />
    </section>
  );
}

/** While a note's travel is dragged nothing of this chapter changes: it need not be drawn again. */
function showsTheSame(before: PlayerChapterProps, now: PlayerChapterProps): boolean {
  const { readings: readingsBefore, ...recordBefore } = before.record;
  const { readings: readingsNow, ...recordNow } = now.record;
  return (
    before.library === now.library &&
    before.noteLabel === now.noteLabel &&
    before.onChange === now.onChange &&
    before.onSettle === now.onSettle &&
    before.analysis?.home.upMm === now.analysis?.home.upMm &&
    before.analysis?.home.rightMm === now.analysis?.home.rightMm &&
    Object.keys(recordNow).every((name) => recordBefore[name as keyof typeof recordBefore] === recordNow[name as keyof typeof recordNow]) &&
    readingsBefore.length === readingsNow.length &&
    readingsBefore.every((reading, index) => reading.note === readingsNow[index]?.note)
  );
}

/** Another instrument brings its own rim, unless the rim was given by its numbers. */
function withInstrument(record: PlayerRecord, library: NotebookLibrary, id: string): PlayerRecord {
  const chosen = library.instruments.find((one) => one.id === id);
  const rim = library.rims.find((one) => one.id === chosen?.rimId)?.rim;
  const readyMade = library.rims.some((one) => sameNumbers(one.rim, record.rim));
  return {
    ...record,
    player: { ...record.player, instrument: id },
    rim: rim !== undefined && readyMade ? rim : record.rim,
  };
}

function HomePart({ record, analysis, noteLabel, onChange, onSettle }: PlayerChapterProps): ReactNode {
  const home = record.home ?? {};
  const place = { upMm: home.upMm ?? analysis?.home.upMm ?? 0, rightMm: home.rightMm ?? analysis?.home.rightMm ?? 0 };
  const given = home.upMm !== undefined || home.rightMm !== undefined;
  const notes = [...new Set(record.readings.map((reading) => reading.note))];
  const setPlace = (change: Partial<typeof place>, key: string): void =>
    onChange((now) => ({ ...now, home: { ...home, ...place, ...change } }), key);
  return (
    <div className="part">
      <h3>{sayNotebook('homeHeading')}</h3>
      <p className="note">{sayNotebook('homeExplained')}</p>
      <div className="fields">
        <Picker
          label={sayNotebook('homeNote')}
          options={[
            { value: '', label: sayNotebook('homeByTravel') },
            ...notes.map((note) => ({ value: note, label: noteLabel(note) })),
            ...(home.note !== undefined && !notes.includes(home.note) ? [{ value: home.note, label: noteLabel(home.note) }] : []),
          ]}
          value={home.note ?? ''}
          onChange={(note) => onChange((now) => ({ ...now, home: note === '' ? without(home, 'note') : { ...home, note } }))}
        />
        <RequiredField
          label={sayNotebook('homeUp')}
          value={place.upMm}
          shape={FIELDS.homePlace}
          onChange={(upMm, key) => setPlace({ upMm }, key)}
          onSettle={onSettle}
        />
        <RequiredField
          label={sayNotebook('homeRight')}
          value={place.rightMm}
          shape={FIELDS.homePlace}
          onChange={(rightMm, key) => setPlace({ rightMm }, key)}
          onSettle={onSettle}
        />
      </div>
      {given ? (
        <button type="button" className="quiet" onClick={() => onChange((now) => ({ ...now, home: without(home, 'upMm', 'rightMm') }))}>
          {sayNotebook('putHomeBack')}
        </button>
      ) : (
        <p className="note">{sayNotebook('homeNow')}</p>
      )}
      <Caution about="placement" />
    </div>
  );
}

const CUSTOM = 'own';

function RimPart({ record, library, onChange, onSettle }: PlayerChapterProps): ReactNode {
  const { rim } = record;
  const chosen = library.rims.find((one) => sameNumbers(one.rim, rim));
  const set = (change: Partial<RimSpec>, key: string): void => onChange((now) => ({ ...now, rim: { ...rim, ...change } }), key);
  return (
    <div className="part">
      <h3>{sayNotebook('rimHeading')}</h3>
      <div className="fields">
        <Picker
          label={sayNotebook('readyRim')}
          options={[
            ...(chosen === undefined ? [{ value: CUSTOM, label: sayNotebook('byNumbers') }] : []),
            ...library.rims.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          value={chosen?.id ?? CUSTOM}
          hint={sayNotebook('oneRimWidth', { mm: formatNumber(rimWidthMm(rim), 2) })}
          onChange={(id) => {
            const next = library.rims.find((one) => one.id === id);
            if (next !== undefined) onChange((now) => ({ ...now, rim: next.rim }));
          }}
        />
      </div>
      <details>
        <summary>{sayNotebook('rimNumbers')}</summary>
        <div className="fields">
          <RequiredField
            label={sayNotebook('innerDiameter')}
            value={rim.innerDiameterMm}
            shape={FIELDS.rimDiameter}
            within={diameterLimits(rim).inner}
            onChange={(innerDiameterMm, key) => set({ innerDiameterMm }, key)}
            onSettle={onSettle}
          />
          <RequiredField
            label={sayNotebook('highPointDiameter')}
            value={rim.highPointDiameterMm}
            shape={FIELDS.rimDiameter}
            within={diameterLimits(rim).highPoint}
            onChange={(highPointDiameterMm, key) => set({ highPointDiameterMm }, key)}
            onSettle={onSettle}
          />
          <RequiredField
            label={sayNotebook('outerDiameter')}
            value={rim.outerDiameterMm}
            shape={FIELDS.rimDiameter}
            within={diameterLimits(rim).outer}
            onChange={(outerDiameterMm, key) => set({ outerDiameterMm }, key)}
            onSettle={onSettle}
          />
          <Field
            label={sayNotebook('contourRadius')}
            value={rim.contourRadiusMm}
            shape={FIELDS.contourRadius}
            within={{ min: contourReachMm(rim), aboveMin: false }}
            optional
            hint={sayNotebook('flatRim')}
            onChange={(contourRadiusMm, key) => set({ contourRadiusMm }, key)}
            onSettle={onSettle}
          />
        </div>
      </details>
    </div>
  );
}

function ArchPart({ record, library, onChange, onSettle, ownArch }: PlayerChapterProps): ReactNode {
  const chosen = library.arches.find((one) => sameNumbers(one.arch, record.arch));
  const setArch = (arch: ArchSpec, key: string | null): void => onChange((now) => ({ ...now, arch }), key);
  return (
    <div className="part">
      <h3>{sayNotebook('archHeading')}</h3>
      <div className="fields">
        <Picker
          label={sayNotebook('readyArch')}
          options={[
            ...(chosen === undefined ? [{ value: CUSTOM, label: ownWords(record.arch) }] : []),
            ...library.arches.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          value={chosen?.id ?? CUSTOM}
          onChange={(id) => {
            const next = library.arches.find((one) => one.id === id);
            if (next !== undefined) setArch(next.arch, null);
          }}
        />
      </div>
      <details>
        <summary>{sayNotebook('archNumbers')}</summary>
        <ArchFields arch={record.arch} teeth={library.teeth} onChange={setArch} onSettle={onSettle} />
      </details>
      {ownArch}
      <Caution about="braces" />
    </div>
  );
}

const SHARE_WORDS = [
  { value: 'diameter', label: 'shareDiameter' },
  { value: 'arc', label: 'shareArc' },
  { value: 'area', label: 'shareArea' },
] as const;

function LipsPart({ record, onChange, onSettle }: PlayerChapterProps): ReactNode {
  const { lips, upperLipShare } = record;
  const setLip = (lip: 'upper' | 'lower', change: Partial<LipSpec>, key: string): void =>
    onChange((now) => ({ ...now, lips: { ...lips, [lip]: { ...lips[lip], ...change } } }), key);
  return (
    <div className="part">
      <h3>{sayNotebook('lipsHeading')}</h3>
      <div className="fields">
        <RequiredField
          label={sayNotebook('forceOnRim')}
          value={record.force.newtons}
          shape={FIELDS.force}
          onChange={(newtons, key) => onChange((now) => ({ ...now, force: { newtons } }), key)}
          onSettle={onSettle}
        />
        <RequiredField
          label={sayNotebook('upperLipShare')}
          value={upperLipShare.value}
          shape={FIELDS.lipShare}
          onChange={(value, key) => onChange((now) => ({ ...now, upperLipShare: { ...upperLipShare, value } }), key)}
          onSettle={onSettle}
        />
        <Picker
          label={sayNotebook('shareBy')}
          options={SHARE_WORDS.map(({ value, label }) => ({ value, label: sayNotebook(label) }))}
          value={upperLipShare.by}
          onChange={(by) =>
            onChange((now) => ({ ...now, upperLipShare: { ...upperLipShare, by: by as typeof upperLipShare.by } }))}
        />
      </div>
      <details>
        <summary>{sayNotebook('lipNumbers')}</summary>
        <div className="fields">
          {(['upper', 'lower'] as const).map((lip) => (
            <LipFields key={lip} name={lip} lip={lips[lip]} onChange={(change, key) => setLip(lip, change, key)} onSettle={onSettle} />
          ))}
        </div>
        <Choice
          legend={sayNotebook('lipLaw')}
          options={[
            { value: 'stiffening', label: sayNotebook('lipStiffening') },
            { value: 'linear', label: sayNotebook('lipLinear') },
          ]}
          value={lips.law}
          onChange={(law) => onChange((now) => ({ ...now, lips: { ...lips, law } }))}
        />
      </details>
    </div>
  );
}

interface LipFieldsProps {
  readonly name: 'upper' | 'lower';
  readonly lip: LipSpec;
  onChange(change: Partial<LipSpec>, key: string): void;
  onSettle(): void;
}

function LipFields({ name, lip, onChange, onSettle }: LipFieldsProps): ReactNode {
  return (
    <>
      <RequiredField
        label={sayNotebook('lipThickness', { lip: name })}
        value={lip.thicknessMm}
        shape={FIELDS.lipThickness}
        onChange={(thicknessMm, key) => onChange({ thicknessMm }, key)}
        onSettle={onSettle}
      />
      <RequiredField
        label={sayNotebook('lipModulus', { lip: name })}
        value={lip.effectiveModulusKPa}
        shape={FIELDS.lipModulus}
        onChange={(effectiveModulusKPa, key) => onChange({ effectiveModulusKPa }, key)}
        onSettle={onSettle}
      />
    </>
  );
}

/** Both are plain data of one shape, so their text is the same when their numbers are. */
function sameNumbers(a: object, b: object): boolean {
  return JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).filter(([, one]) => one !== undefined).sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, one]) => [name, sorted(one)]),
  );
}

/** What an arch is called that is none of the ready-made ones. */
function ownWords(arch: ArchSpec): string {
  if (scannedJaw(arch, 'upper') !== null || scannedJaw(arch, 'lower') !== null) return sayNotebook('scannedArch');
  return sayNotebook(fitBehind(arch) === null ? 'byNumbers' : 'measuredArch');
}
