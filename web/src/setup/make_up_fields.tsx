// The make-up as a form: driver, seal, impeller, service first; of the sizes only those the plan asks for.
import type { DimensionEntry, MakeUp, MakeUpForm, SealSheetEntry, ServerError, Titled } from '../api/types';
import { say } from '../session/preferences';
import { type TextKey, t } from '../text/text';
import { Choice, errorText, Field, isAbout, Select } from '../widgets/form';
import { drivesByCoil, hasConcentration, isMixture } from './tidy_make_up';

export interface MakeUpProps {
  form: MakeUpForm;
  makeUp: MakeUp;
  /** Sizes the plan's checks use and nobody gave. */
  needed: readonly string[];
  error: ServerError | null;
  onMakeUp: (makeUp: MakeUp) => void;
}

const options = (list: readonly Titled[]) => list.map((x) => ({ value: x.word, label: say(x.title) }));
/** A choice that may be left open. */
const orOpen = (list: readonly Titled[]) => [{ value: '', label: t('notKnown') }, ...options(list)];
const plain = (list: readonly string[]) => list.map((x) => ({ value: x, label: x }));

function Driver({ form, makeUp, error, onMakeUp }: MakeUpProps) {
  const { driver } = makeUp;
  const set = (next: Partial<MakeUp['driver']>) => onMakeUp({ ...makeUp, driver: { ...driver, ...next } });
  return (
    <fieldset class="panel">
      <legend>{t('driver')}</legend>
      <Choice
        label={t('standard')}
        value={driver.standard}
        options={options(form.driver.standards)}
        onValue={(v) => {
          const { flange: _other, ...rest } = driver;
          onMakeUp({ ...makeUp, driver: { ...rest, standard: v === 'iec' ? 'iec' : 'nema', frame: '' } });
        }}
      />
      <Select
        label={t('frame')}
        value={driver.frame}
        empty={t('choose')}
        options={plain(form.driver.frames[driver.standard])}
        error={error && isAbout(error, 'frame') ? errorText(error) : null}
        onValue={(frame) => set({ frame })}
      />
      {driver.standard === 'iec' && (
        <Select
          label={t('flange')}
          value={driver.flange ?? ''}
          empty={t('choose')}
          options={plain(form.driver.flanges)}
          onValue={(flange) => set({ flange })}
        />
      )}
      <Choice
        label={t('standsHow')}
        value={driver.stands ?? 'horizontal'}
        options={[
          { value: 'horizontal', label: t('shaftLevel') },
          { value: 'shaft-up', label: t('shaftUp') },
        ]}
        onValue={(v) => set({ stands: v === 'shaft-up' ? 'shaft-up' : 'horizontal' })}
      />
      <Choice
        label={t('sleeve')}
        value={makeUp.sleeve}
        options={[
          { value: 'fitted', label: t('sleeveFitted') },
          { value: 'none', label: t('sleeveNone') },
        ]}
        onValue={(v) => onMakeUp({ ...makeUp, sleeve: v === 'none' ? 'none' : 'fitted' })}
      />
      <Field
        label={t('speed')}
        hint={t('speedHint')}
        value={makeUp.speed}
        error={error && isAbout(error, 'speed') ? errorText(error) : null}
        onValue={(speed) => onMakeUp({ ...makeUp, speed })}
      />
      {(drivesByCoil(makeUp.seal.kind) || makeUp.impeller.fastener) && (
        <Choice
          label={t('rotationSeen')}
          value={driver.rotation ?? ''}
          options={orOpen(form.driver.rotations)}
          onValue={(rotation) => set({ rotation })}
        />
      )}
    </fieldset>
  );
}

const sheetSizes: [keyof SealSheetEntry, TextKey][] = [
  ['outer_diameter', 'faceOuter'],
  ['inner_diameter', 'faceInner'],
  ['balance_diameter', 'faceBalance'],
];
const sheetSpring: [keyof SealSheetEntry, TextKey][] = [
  ['spring_force', 'springForce'],
  ['spring_rate', 'springRate'],
  ['force_lower', 'springLeast'],
  ['force_upper', 'springMost'],
];
const sheetParts: [keyof SealSheetEntry, TextKey][] = [
  ['ring_length', 'ringLength'],
  ['seat_length', 'seatLength'],
];
const sheetLimits: [keyof SealSheetEntry, TextKey][] = [
  ['pv_limit', 'pvLimit'],
  ['seat_face_outer', 'seatFaceOuter'],
  ['seat_face_inner', 'seatFaceInner'],
];

/** What the seal's own sheet says of faces and spring; without it there is no film and no spring force. */
function SheetOfSeal({
  sheet,
  about,
  onSheet,
}: {
  sheet: SealSheetEntry;
  about: (field: string) => string | null;
  onSheet: (sheet: SealSheetEntry) => void;
}) {
  const fields = (rows: typeof sheetSizes) => (
    <div class="field-row">
      {rows.map(([name, label]) => (
        <Field
          key={name}
          label={t(label)}
          value={sheet[name] ?? ''}
          error={about(name)}
          onValue={(value) => onSheet({ ...sheet, [name]: value })}
        />
      ))}
    </div>
  );
  return (
    <details open={Object.values(sheet).some(Boolean)}>
      <summary>{t('sheetOfSeal')}</summary>
      <div class="stack">
        <p class="hint">{t('sheetOfSealHint')}</p>
        {fields(sheetSizes)}
        <Choice
          label={t('liquidStands')}
          value={sheet.liquid ?? 'outside'}
          options={[
            { value: 'outside', label: t('outsideFaces') },
            { value: 'inside', label: t('insideFaces') },
          ]}
          onValue={(liquid) => onSheet({ ...sheet, liquid })}
        />
        {fields(sheetSpring)}
        {fields(sheetParts)}
        {fields(sheetLimits)}
        <Choice
          label={t('headStyle')}
          value={sheet.head ?? 'turning'}
          options={[
            { value: 'turning', label: t('headTurning') },
            { value: 'standing', label: t('headStanding') },
          ]}
          onValue={(head) => onSheet({ ...sheet, head })}
        />
        {sheet.head === 'standing' && fields([['ring_mass', 'ringMass']])}
      </div>
    </details>
  );
}

function SealAndService({ form, makeUp, error, onMakeUp }: MakeUpProps) {
  const seal = (next: Partial<MakeUp['seal']>) => onMakeUp({ ...makeUp, seal: { ...makeUp.seal, ...next } });
  const service = (next: Partial<MakeUp['service']>) =>
    onMakeUp({ ...makeUp, service: { ...makeUp.service, ...next } });
  const about = (field: string) => (error && isAbout(error, field) ? errorText(error) : null);
  return (
    <>
      <fieldset class="panel">
        <legend>{t('seal')}</legend>
        <Select
          label={t('sealKind')}
          value={makeUp.seal.kind}
          empty={t('choose')}
          options={options(form.seal.kinds)}
          onValue={(kind) => seal({ kind })}
        />
        <Select
          label={t('elastomer')}
          value={makeUp.seal.elastomer}
          empty={t('choose')}
          options={plain(form.seal.elastomers)}
          onValue={(elastomer) => seal({ elastomer })}
        />
        <Select
          label={t('lubricant')}
          value={makeUp.seal.lubricant}
          empty={t('choose')}
          options={options(form.seal.lubricants)}
          onValue={(lubricant) => seal({ lubricant })}
        />
        {drivesByCoil(makeUp.seal.kind) && (
          <Choice
            label={t('coilHand')}
            value={makeUp.seal.coil ?? ''}
            options={orOpen(form.hands)}
            onValue={(coil) => seal({ coil })}
          />
        )}
        <Select
          label={t('ringFace')}
          value={makeUp.seal.ring ?? ''}
          empty={t('notKnown')}
          options={options(form.seal.faces)}
          onValue={(ring) => seal({ ring })}
        />
        <Select
          label={t('seatFace')}
          value={makeUp.seal.seat ?? ''}
          empty={t('notKnown')}
          options={options(form.seal.faces)}
          onValue={(seat) => seal({ seat })}
        />
        <SheetOfSeal sheet={makeUp.seal.sheet ?? {}} about={about} onSheet={(sheet) => seal({ sheet })} />
      </fieldset>
      <fieldset class="panel">
        <legend>{t('service')}</legend>
        <Select
          label={t('fluid')}
          value={makeUp.service.fluid}
          empty={t('choose')}
          options={options(form.service.fluids)}
          onValue={(fluid) => service({ fluid })}
        />
        {isMixture(makeUp.service.fluid) && (
          <Choice
            label={t('glycol')}
            value={makeUp.service.glycol ?? ''}
            options={orOpen(form.service.glycols)}
            onValue={(glycol) => service({ glycol })}
          />
        )}
        {hasConcentration(makeUp.service.fluid) && (
          <Field
            label={t(isMixture(makeUp.service.fluid) ? 'glycolShare' : 'saltShare')}
            hint={t(isMixture(makeUp.service.fluid) ? 'glycolShareHint' : 'saltShareHint')}
            value={makeUp.service.concentration ?? ''}
            error={about('concentration')}
            onValue={(concentration) => service({ concentration })}
          />
        )}
        <Field
          label={t('temperature')}
          hint={t('temperatureServiceHint')}
          value={makeUp.service.temperature ?? ''}
          error={about('temperature')}
          onValue={(temperature) => service({ temperature })}
        />
        <Field
          label={t('suctionPressure')}
          hint={t('pressureHint')}
          value={makeUp.service.suction_pressure ?? ''}
          error={about('suction_pressure')}
          onValue={(suction_pressure) => service({ suction_pressure })}
        />
        <Field
          label={t('headPressure')}
          hint={t('headPressureHint')}
          value={makeUp.service.head_pressure ?? ''}
          error={about('head_pressure')}
          onValue={(head_pressure) => service({ head_pressure })}
        />
        <Field
          label={t('sealAltitude')}
          hint={t('altitudeHint')}
          value={makeUp.service.altitude ?? ''}
          error={about('altitude')}
          onValue={(altitude) => service({ altitude })}
        />
      </fieldset>
    </>
  );
}

function Impeller({ form, makeUp, error, onMakeUp }: MakeUpProps) {
  const { impeller } = makeUp;
  const set = (next: MakeUp['impeller']) => onMakeUp({ ...makeUp, impeller: next });
  const fastener = impeller.fastener;
  const about = (field: string) => (error && isAbout(error, field) ? errorText(error) : null);
  const torque = (end: 'lower' | 'upper', text: string) =>
    fastener &&
    set({
      ...impeller,
      fastener: { ...fastener, torque: { lower: '', upper: '', ...fastener.torque, [end]: text } },
    });
  return (
    <fieldset class="panel">
      <legend>{t('impeller')}</legend>
      <Select
        label={t('keyways')}
        value={String(impeller.keyways)}
        options={plain(['1', '2', '3', '4'])}
        onValue={(v) => set({ ...impeller, keyways: Number(v) })}
      />
      {makeUp.service.head_pressure && (
        <Select
          label={t('impellerBack')}
          value={impeller.back ?? ''}
          empty={t('notKnown')}
          options={options(form.impeller.backs)}
          onValue={(back) => set({ ...impeller, back })}
        />
      )}
      <Choice
        label={t('fastener')}
        value={fastener ? 'yes' : 'no'}
        options={[
          { value: 'yes', label: t('fastenerKnown') },
          { value: 'no', label: t('fastenerUnknown') },
        ]}
        onValue={(v) => {
          const { fastener: _gone, ...rest } = impeller;
          set(v === 'no' ? rest : { ...rest, fastener: { thread: '', grade: '', condition: '' } });
        }}
      />
      {fastener && (
        <>
          <Select
            label={t('thread')}
            value={fastener.thread}
            empty={t('choose')}
            options={plain(form.fastener.threads)}
            onValue={(thread) => set({ ...impeller, fastener: { ...fastener, thread } })}
          />
          <Select
            label={t('grade')}
            value={fastener.grade}
            empty={t('choose')}
            options={plain(form.fastener.grades)}
            onValue={(grade) => set({ ...impeller, fastener: { ...fastener, grade } })}
          />
          <Select
            label={t('condition')}
            value={fastener.condition}
            empty={t('choose')}
            options={plain(form.fastener.conditions)}
            onValue={(condition) => set({ ...impeller, fastener: { ...fastener, condition } })}
          />
          <Choice
            label={t('fastenerHand')}
            value={fastener.hand ?? 'right'}
            options={options(form.hands)}
            onValue={(hand) => set({ ...impeller, fastener: { ...fastener, hand } })}
          />
          <div class="row">
            <Field
              label={t('torqueLower')}
              hint={t('torqueHint')}
              value={fastener.torque?.lower ?? ''}
              error={about('lower')}
              onValue={(v) => torque('lower', v)}
            />
            <Field
              label={t('torqueUpper')}
              value={fastener.torque?.upper ?? ''}
              error={about('upper')}
              onValue={(v) => torque('upper', v)}
            />
          </div>
        </>
      )}
    </fieldset>
  );
}

interface Size {
  nominal: string;
  lower: string;
  upper: string;
}

const sizeOf = (entry: DimensionEntry | undefined): Size => {
  if (entry === undefined) return { nominal: '', lower: '', upper: '' };
  if (typeof entry === 'string') return { nominal: entry, lower: '', upper: '' };
  return {
    nominal: 'nominal' in entry ? entry.nominal : '',
    lower: entry.lower ?? '',
    upper: entry.upper ?? '',
  };
};

/** As the job file takes it; undefined when nothing is written. */
export function entryOf({ nominal, lower, upper }: Size): DimensionEntry | undefined {
  if (nominal === '' && lower === '' && upper === '') return undefined;
  if (lower === '' && upper === '') return nominal;
  if (nominal === '') return { lower, upper };
  return { nominal, ...(lower ? { lower } : {}), ...(upper ? { upper } : {}) };
}

function Dimensions({ form, makeUp, needed, error, onMakeUp }: MakeUpProps) {
  const given = makeUp.dimensions ?? {};
  const asked = form.dimensions.filter((d) => needed.includes(d.name) || given[d.name] !== undefined);
  const rest = form.dimensions.filter((d) => !asked.includes(d));
  const set = (name: string, size: Size) => {
    const { [name]: _before, ...others } = given;
    const entry = entryOf(size);
    onMakeUp({ ...makeUp, dimensions: entry === undefined ? others : { ...others, [name]: entry } });
  };
  const row = (d: MakeUpForm['dimensions'][number]) => {
    const size = sizeOf(given[d.name]);
    const said = error?.field.includes(d.name) ? errorText(error) : null;
    return (
      <fieldset class="dimension" key={d.name}>
        <legend>
          {say(d.title)}
          {needed.includes(d.name) && <em> {t('neededForPlan')}</em>}
        </legend>
        <Field
          label={t('nominal')}
          value={size.nominal}
          error={said}
          onValue={(nominal) => set(d.name, { ...size, nominal })}
        />
        <Field
          label={t('smallest')}
          value={size.lower}
          onValue={(lower) => set(d.name, { ...size, lower })}
        />
        <Field label={t('largest')} value={size.upper} onValue={(upper) => set(d.name, { ...size, upper })} />
      </fieldset>
    );
  };
  return (
    <section class="panel">
      <h2>{t('sizes')}</h2>
      <p class="hint">{t('sizesHint')}</p>
      {asked.map(row)}
      {rest.length > 0 && (
        <details>
          <summary>{t('moreSizes', { count: rest.length })}</summary>
          {rest.map(row)}
        </details>
      )}
    </section>
  );
}

export function MakeUpFields(props: MakeUpProps) {
  return (
    <>
      <Driver {...props} />
      <SealAndService {...props} />
      <Impeller {...props} />
      <Dimensions {...props} />
    </>
  );
}
