import type { ReactNode } from 'react';
import type { ArchSpec, FormSpec, JawArchSpec, JawSpec, ProfileSpec, ToothSpec } from '../core/specs';
import { sayNotebook } from '../words/notebook';
import { decimalSign } from '../words/numbers';
import { Picker } from './Choice';
import { Field, RequiredField } from './Fields';
import type { ToothPlace } from './props';
import { FIELDS } from './ranges';
import { without } from './recordEdits';

export interface ArchFieldsProps {
  readonly arch: ArchSpec;
  /** The front teeth of both jaws with their places, for one that stands out. */
  readonly teeth: readonly ToothPlace[];
  onChange(arch: ArchSpec, key: string | null): void;
  onSettle(): void;
}

/** Every number of the arch: both jaws' form and profile, where the lower jaw stands, and a tooth that stands out. */
export function ArchFields({ arch, teeth, onChange, onSettle }: ArchFieldsProps): ReactNode {
  if ('single' in arch) {
    return (
      <>
        <p className="note">{sayNotebook('oneSurface')}</p>
        <JawArchFields
          name={sayNotebook('theSurface')}
          jawArch={arch.single}
          onChange={(single, key) => onChange({ single }, key)}
          onSettle={onSettle}
        />
      </>
    );
  }
  return (
    <>
      <JawFields jaw={arch.jaw} onChange={(jaw, key) => onChange({ ...arch, jaw }, key)} onSettle={onSettle} />
      <JawArchFields
        name={sayNotebook('upperArch')}
        jawArch={arch.upper}
        teeth={teeth.filter((tooth) => tooth.fdi < 30)}
        onChange={(upper, key) => onChange({ ...arch, upper }, key)}
        onSettle={onSettle}
      />
      <JawArchFields
        name={sayNotebook('lowerArch')}
        jawArch={arch.lower}
        teeth={teeth.filter((tooth) => tooth.fdi >= 30)}
        onChange={(lower, key) => onChange({ ...arch, lower }, key)}
        onSettle={onSettle}
      />
    </>
  );
}

interface JawFieldsProps {
  readonly jaw: JawSpec;
  onChange(jaw: JawSpec, key: string | null): void;
  onSettle(): void;
}

function JawFields({ jaw, onChange, onSettle }: JawFieldsProps): ReactNode {
  return (
    <fieldset className="fields">
      <legend>{sayNotebook('lowerJaw')}</legend>
      <RequiredField
        label={sayNotebook('opening')}
        value={jaw.openingMm}
        shape={FIELDS.opening}
        onChange={(openingMm, key) => onChange({ ...jaw, openingMm }, key)}
        onSettle={onSettle}
      />
      <RequiredField
        label={sayNotebook('forward')}
        value={jaw.forwardMm}
        shape={FIELDS.forward}
        onChange={(forwardMm, key) => onChange({ ...jaw, forwardMm }, key)}
        onSettle={onSettle}
      />
      <RequiredField
        label={sayNotebook('hinge')}
        value={jaw.hingeDeg}
        shape={FIELDS.hinge}
        onChange={(hingeDeg, key) => onChange({ ...jaw, hingeDeg }, key)}
        onSettle={onSettle}
      />
    </fieldset>
  );
}

interface JawArchFieldsProps {
  readonly name: string;
  readonly jawArch: JawArchSpec;
  readonly teeth?: readonly ToothPlace[];
  onChange(jawArch: JawArchSpec, key: string | null): void;
  onSettle(): void;
}

function JawArchFields({ name, jawArch, teeth, onChange, onSettle }: JawArchFieldsProps): ReactNode {
  return (
    <fieldset className="fields">
      <legend>{name}</legend>
      <FormFields form={jawArch.form} onChange={(form, key) => onChange({ ...jawArch, form }, key)} onSettle={onSettle} />
      <ProfileFields
        profile={jawArch.profile}
        onChange={(profile, key) => onChange({ ...jawArch, profile }, key)}
        onSettle={onSettle}
      />
      {teeth === undefined ? null : (
        <ToothFields
          teeth={jawArch.teeth ?? []}
          choices={teeth}
          onChange={(next, key) =>
            onChange(next.length === 0 ? without(jawArch, 'teeth') : { ...jawArch, teeth: next }, key)}
          onSettle={onSettle}
        />
      )}
    </fieldset>
  );
}

const FORM_KINDS: readonly FormSpec['kind'][] = ['power', 'sextic', 'catenary', 'circle', 'line', 'points'];

interface FormFieldsProps {
  readonly form: FormSpec;
  onChange(form: FormSpec, key: string | null): void;
  onSettle(): void;
}

function FormFields({ form, onChange, onSettle }: FormFieldsProps): ReactNode {
  const kinds = FORM_KINDS.filter((kind) => kind !== 'points' || form.kind === 'points');
  return (
    <>
      <Picker
        label={sayNotebook('form')}
        options={kinds.map((kind) => ({ value: kind, label: sayNotebook(`form-${kind}`) }))}
        value={form.kind}
        onChange={(kind) => onChange(startForm(kind as FormSpec['kind'], form), null)}
      />
      {form.kind === 'power' || form.kind === 'catenary' ? (
        <>
          <RequiredField
            label={sayNotebook('width')}
            value={form.widthMm}
            shape={FIELDS.formWidth}
            onChange={(widthMm, key) => onChange({ ...form, widthMm }, key)}
            onSettle={onSettle}
          />
          <RequiredField
            label={sayNotebook('depth')}
            value={form.depthMm}
            shape={FIELDS.formDepth}
            onChange={(depthMm, key) => onChange({ ...form, depthMm }, key)}
            onSettle={onSettle}
          />
        </>
      ) : null}
      {form.kind === 'power' ? (
        <RequiredField
          label={sayNotebook('exponent')}
          value={form.exponent}
          shape={FIELDS.exponent}
          hint={sayNotebook('exponentHint')}
          onChange={(exponent, key) => onChange({ ...form, exponent }, key)}
          onSettle={onSettle}
        />
      ) : null}
      {form.kind === 'circle' ? (
        <RequiredField
          label={sayNotebook('radius')}
          value={form.radiusMm}
          shape={FIELDS.radius}
          onChange={(radiusMm, key) => onChange({ ...form, radiusMm }, key)}
          onSettle={onSettle}
        />
      ) : null}
      {form.kind === 'sextic' ? (
        <RequiredField
          label={sayNotebook('frontRadius')}
          value={1 / (2 * form.b)}
          shape={FIELDS.radius}
          hint={sayNotebook('sexticHint', { a: form.a.toPrecision(3).replace('.', decimalSign()) })}
          onChange={(radiusMm, key) => onChange({ ...form, b: 1 / (2 * radiusMm) }, key)}
          onSettle={onSettle}
        />
      ) : null}
      {form.kind === 'points' ? <p className="note">{sayNotebook('measuredPoints', { count: form.points.length })}</p> : null}
    </>
  );
}

/** Another kind of form that is about as wide and as deep. */
function startForm(kind: FormSpec['kind'], from: FormSpec): FormSpec {
  const widthMm = 'widthMm' in from ? from.widthMm : 56;
  const depthMm = 'depthMm' in from ? from.depthMm : 36;
  switch (kind) {
    case 'power':
      return { kind, widthMm, depthMm, exponent: 0.5 };
    case 'catenary':
      return { kind, widthMm, depthMm };
    case 'sextic':
      return { kind, a: 6e-8, b: 0.0226 };
    case 'circle':
      return { kind, radiusMm: 24 };
    case 'line':
      return { kind };
    case 'points':
      return from;
  }
}

const PROFILE_KINDS: readonly ProfileSpec['kind'][] = ['arcs', 'arc', 'straight'];

interface ProfileFieldsProps {
  readonly profile: ProfileSpec;
  onChange(profile: ProfileSpec, key: string | null): void;
  onSettle(): void;
}

function ProfileFields({ profile, onChange, onSettle }: ProfileFieldsProps): ReactNode {
  return (
    <>
      <Picker
        label={sayNotebook('profile')}
        options={PROFILE_KINDS.map((kind) => ({ value: kind, label: sayNotebook(`profile-${kind}`) }))}
        value={profile.kind}
        onChange={(kind) => onChange(startProfile(kind as ProfileSpec['kind']), null)}
      />
      {profile.kind === 'arcs' ? (
        <>
          <RequiredField
            label={sayNotebook('crownLeans')}
            value={profile.inclinationDeg}
            shape={FIELDS.inclination}
            onChange={(inclinationDeg, key) => onChange({ ...profile, inclinationDeg }, key)}
            onSettle={onSettle}
          />
          <RequiredField
            label={sayNotebook('crownHeight')}
            value={profile.crownHeightMm}
            shape={FIELDS.crownHeight}
            onChange={(crownHeightMm, key) => onChange({ ...profile, crownHeightMm }, key)}
            onSettle={onSettle}
          />
          <RequiredField
            label={sayNotebook('crownRadius')}
            value={profile.crownRadiusMm}
            shape={FIELDS.radius}
            onChange={(crownRadiusMm, key) => onChange({ ...profile, crownRadiusMm }, key)}
            onSettle={onSettle}
          />
          <RequiredField
            label={sayNotebook('gumRadius')}
            value={profile.gumRadiusMm}
            shape={FIELDS.gumRadius}
            onChange={(gumRadiusMm, key) => onChange({ ...profile, gumRadiusMm }, key)}
            onSettle={onSettle}
          />
          <RequiredField
            label={sayNotebook('gumLeans')}
            value={profile.gumInclinationDeg}
            shape={FIELDS.gumInclination}
            onChange={(gumInclinationDeg, key) => onChange({ ...profile, gumInclinationDeg }, key)}
            onSettle={onSettle}
          />
        </>
      ) : null}
      {profile.kind === 'arc' ? (
        <RequiredField
          label={sayNotebook('radius')}
          value={profile.radiusMm}
          shape={FIELDS.radius}
          onChange={(radiusMm, key) => onChange({ ...profile, radiusMm }, key)}
          onSettle={onSettle}
        />
      ) : null}
      {profile.kind === 'straight' ? (
        <Field
          label={sayNotebook('leansBack')}
          value={profile.inclinationDeg ?? 0}
          shape={FIELDS.inclination}
          onChange={(inclinationDeg, key) => onChange({ ...profile, inclinationDeg: inclinationDeg ?? 0 }, key)}
          onSettle={onSettle}
        />
      ) : null}
    </>
  );
}

function startProfile(kind: ProfileSpec['kind']): ProfileSpec {
  switch (kind) {
    case 'arcs':
      return { kind, inclinationDeg: 8, crownHeightMm: 9, crownRadiusMm: 22, gumRadiusMm: 12, gumInclinationDeg: 4 };
    case 'arc':
      return { kind, radiusMm: 40 };
    case 'straight':
      return { kind };
  }
}

interface ToothFieldsProps {
  readonly teeth: readonly ToothSpec[];
  readonly choices: readonly ToothPlace[];
  onChange(teeth: readonly ToothSpec[], key: string | null): void;
  onSettle(): void;
}

function ToothFields({ teeth, choices, onChange, onSettle }: ToothFieldsProps): ReactNode {
  const [first, ...others] = teeth;
  return (
    <>
      <Picker
        label={sayNotebook('toothOut')}
        options={[{ value: '', label: sayNotebook('noTooth') }, ...choices.map(({ fdi }) => ({ value: String(fdi), label: sayNotebook('tooth', { fdi }) }))]}
        value={first === undefined ? '' : String(first.fdi)}
        onChange={(value) => {
          const place = choices.find(({ fdi }) => String(fdi) === value);
          onChange(place === undefined ? others : [{ ...place, outMm: first?.outMm ?? 0.5 }, ...others], null);
        }}
      />
      {first === undefined ? null : (
        <RequiredField
          label={sayNotebook('outBy')}
          value={first.outMm}
          shape={FIELDS.toothOut}
          onChange={(outMm, key) => onChange([{ ...first, outMm }, ...others], key)}
          onSettle={onSettle}
        />
      )}
    </>
  );
}
