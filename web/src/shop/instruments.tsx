// The shop's instruments and until when each is calibrated.
import { useState } from 'preact/hooks';
import type { ShopInstrument, ShopView } from '../api/types';
import { mayAnswerFor } from '../session/session';
import { type TextKey, t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Select } from '../widgets/form';
import { ActResult, useShopAct } from './shop_acts';

const kinds: [string, TextKey][] = [
  ['dial-indicator', 'kindDial'],
  ['lever-indicator', 'kindLever'],
  ['micrometer', 'kindMicrometer'],
  ['bore-gauge', 'kindBoreGauge'],
  ['depth-gauge', 'kindDepthGauge'],
  ['calliper', 'kindCalliper'],
  ['torque-wrench', 'kindTorqueWrench'],
  ['pressure-gauge', 'kindPressureGauge'],
  ['vibration-meter', 'kindVibrationMeter'],
  ['power-meter', 'kindPowerMeter'],
];

/** What a kind measures, when it is no length. */
const measures: Record<string, string> = {
  'torque-wrench': 'torque',
  'pressure-gauge': 'pressure_gauge',
  'vibration-meter': 'velocity',
  'power-meter': 'power',
};

export const kindName = (kind: string): string => {
  const key = kinds.find(([word]) => word === kind)?.[1];
  return key ? t(key) : kind;
};

interface InstrumentForm {
  id: string;
  kind: string;
  unit: string;
  graduation: string;
  mpe: string;
  repeatability: string;
  calibrated: string;
  due: string;
}

const emptyForm: InstrumentForm = {
  id: '',
  kind: 'dial-indicator',
  unit: 'thou',
  graduation: '',
  mpe: '',
  repeatability: '',
  calibrated: '',
  due: '',
};

const formOf = (i: ShopInstrument): InstrumentForm => ({
  id: i.id,
  kind: i.kind,
  unit: i.unit,
  graduation: i.graduation,
  mpe: i.mpe ?? '',
  repeatability: i.repeatability ?? '',
  calibrated: i.calibrated,
  due: i.due,
});

/** As the record takes it: what was left empty is left out. */
function instrumentOf(form: InstrumentForm) {
  const { mpe, repeatability, ...rest } = form;
  return {
    ...rest,
    ...(measures[form.kind] ? { measures: measures[form.kind] } : {}),
    ...(mpe ? { mpe } : {}),
    ...(repeatability ? { repeatability } : {}),
  };
}

function Edit({ first, onDone }: { first: InstrumentForm; onDone: () => void }) {
  const [form, setForm] = useState(first);
  const act = useShopAct();
  const set = (name: keyof InstrumentForm) => (value: string) => setForm({ ...form, [name]: value });
  const about = (field: string) => (act.error && isAbout(act.error, field) ? errorText(act.error) : null);
  const save = async () => {
    if (await act.run('instrument-set', { instrument: instrumentOf(form) })) onDone();
  };
  return (
    <form
      class="stack panel"
      onSubmit={(e) => {
        e.preventDefault();
        void save();
      }}
    >
      <h3>{first.id === '' ? t('addInstrument') : t('changeInstrument', { id: first.id })}</h3>
      {first.id === '' && (
        <Field label={t('instrumentId')} value={form.id} error={about('id')} onValue={set('id')} />
      )}
      <Select
        label={t('kind')}
        value={form.kind}
        options={kinds.map(([value, key]) => ({ value, label: t(key) }))}
        onValue={set('kind')}
      />
      <div class="field-row">
        <Field
          label={t('unit')}
          list={['thou', 'in', 'mm', 'µm', 'ft·lbf', 'N·m']}
          value={form.unit}
          error={about('unit')}
          onValue={set('unit')}
        />
        <Field
          label={t('graduation')}
          value={form.graduation}
          error={about('graduation')}
          onValue={set('graduation')}
        />
        <Field label={t('mpe')} value={form.mpe} error={about('mpe')} onValue={set('mpe')} />
        <Field
          label={t('repeatability')}
          value={form.repeatability}
          error={about('repeatability')}
          onValue={set('repeatability')}
        />
        <Field
          label={t('calibratedOn')}
          type="date"
          value={form.calibrated}
          error={about('calibrated')}
          onValue={set('calibrated')}
        />
        <Field label={t('dueOn')} type="date" value={form.due} error={about('due')} onValue={set('due')} />
      </div>
      <ActResult act={act} />
      <div class="row">
        <WorkButton kind="main" submit onPress={save}>
          {t('save')}
        </WorkButton>
        <button type="button" class="button button-plain" onClick={onDone}>
          {t('cancel')}
        </button>
      </div>
    </form>
  );
}

export function Instruments({ view }: { view: ShopView }) {
  const [editing, setEditing] = useState<InstrumentForm | null>(null);
  const act = useShopAct();
  const inOrder = [...view.instruments].sort(
    (a, b) => Number(a.in_date) - Number(b.in_date) || a.id.localeCompare(b.id),
  );
  return (
    <>
      <section class="panel">
        <h2>{t('instruments')}</h2>
        <ul class="plain-list rows">
          {inOrder.map((i) => (
            <li key={i.id} class="row-item">
              <span>
                <strong>{i.id}</strong> {kindName(i.kind)} · {i.graduation}
                <br />
                {i.in_date ? (
                  t('inDateUntil', { due: i.due })
                ) : (
                  <strong class="out-of-date">{t('outOfDateSince', { due: i.due })}</strong>
                )}
              </span>
              {mayAnswerFor.value && (
                <>
                  <button type="button" class="button button-plain" onClick={() => setEditing(formOf(i))}>
                    {t('change')}
                  </button>
                  <WorkButton
                    kind="danger"
                    onPress={async () => void (await act.run('instrument-retired', { id: i.id }))}
                  >
                    {t('retire')}
                  </WorkButton>
                </>
              )}
            </li>
          ))}
        </ul>
        <ActResult act={act} />
        {mayAnswerFor.value && editing === null && (
          <button type="button" class="button button-main" onClick={() => setEditing(emptyForm)}>
            {t('addInstrument')}
          </button>
        )}
      </section>
      {editing && <Edit key={editing.id} first={editing} onDone={() => setEditing(null)} />}
    </>
  );
}
