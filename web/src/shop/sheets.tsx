// What the shop knows of a pump family, and its own words for a step.
import { useState } from 'preact/hooks';
import type { MakeUp, ShopView } from '../api/types';
import { say } from '../session/preferences';
import { mayAnswerFor } from '../session/session';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, TextArea } from '../widgets/form';
import { ActResult, useShopAct } from './shop_acts';

interface SheetRow {
  name: string;
  nominal: string;
  lower: string;
  upper: string;
}

function rowsOf(makeUp: Partial<MakeUp>): SheetRow[] {
  return Object.entries(makeUp.dimensions ?? {}).map(([name, d]) =>
    typeof d === 'string'
      ? { name, nominal: d, lower: '', upper: '' }
      : { name, nominal: 'nominal' in d ? d.nominal : '', lower: d.lower ?? '', upper: d.upper ?? '' },
  );
}

const text = (row: SheetRow) =>
  [row.nominal, row.lower && row.upper ? `${row.lower} … ${row.upper}` : ''].filter(Boolean).join(', ');

function AddSheet() {
  const [pump, setPump] = useState('');
  const [row, setRow] = useState<SheetRow>({ name: '', nominal: '', lower: '', upper: '' });
  const [rows, setRows] = useState<SheetRow[]>([]);
  const act = useShopAct();
  const set = (key: keyof SheetRow) => (value: string) => setRow({ ...row, [key]: value });
  const add = () => {
    if (row.name.trim() === '') return;
    setRows([...rows.filter((r) => r.name !== row.name), row]);
    setRow({ name: '', nominal: '', lower: '', upper: '' });
  };
  const save = async () => {
    const dimensions = Object.fromEntries(
      rows.map((r) => [
        r.name,
        r.lower && r.upper
          ? r.nominal
            ? { nominal: r.nominal, lower: r.lower, upper: r.upper }
            : { lower: r.lower, upper: r.upper }
          : r.nominal,
      ]),
    );
    if (await act.run('sheet-set', { pump: pump.trim(), make_up: { dimensions } })) {
      setRows([]);
      setPump('');
    }
  };
  return (
    <form
      class="stack panel"
      onSubmit={(e) => {
        e.preventDefault();
        void save();
      }}
    >
      <h3>{t('addSheet')}</h3>
      <Field
        label={t('pumpFamily')}
        hint={t('pumpHint')}
        value={pump}
        error={act.error && isAbout(act.error, 'pump') ? errorText(act.error) : null}
        onValue={setPump}
      />
      <ul class="plain-list">
        {rows.map((r) => (
          <li key={r.name}>
            {r.name}: {text(r)}
          </li>
        ))}
      </ul>
      <div class="field-row">
        <Field label={t('sizeName')} hint={t('sizeNameHint')} value={row.name} onValue={set('name')} />
        <Field label={t('nominal')} value={row.nominal} onValue={set('nominal')} />
        <Field label={t('smallest')} value={row.lower} onValue={set('lower')} />
        <Field label={t('largest')} value={row.upper} onValue={set('upper')} />
      </div>
      <button type="button" class="button button-plain" onClick={add}>
        {t('addSize')}
      </button>
      <ActResult act={act} />
      <WorkButton kind="main" submit disabled={pump.trim() === '' || rows.length === 0} onPress={save}>
        {t('save')}
      </WorkButton>
    </form>
  );
}

export function Sheets({ view }: { view: ShopView }) {
  return (
    <>
      <section class="panel">
        <h2>{t('sheets')}</h2>
        <p>{t('sheetsWhat')}</p>
        {view.sheets.map((s) => (
          <details key={s.pump}>
            <summary>{s.pump}</summary>
            <ul class="plain-list">
              {rowsOf(s.make_up).map((r) => (
                <li key={r.name}>
                  {r.name}: {text(r)}
                </li>
              ))}
            </ul>
          </details>
        ))}
      </section>
      {mayAnswerFor.value && <AddSheet />}
    </>
  );
}

export function StepTexts({ view }: { view: ShopView }) {
  const [step, setStep] = useState('');
  const [en, setEn] = useState('');
  const [es, setEs] = useState('');
  const act = useShopAct();
  const save = async () => {
    if (await act.run('step-text-set', { step: step.trim(), what_to_do: { en, es } })) {
      setStep('');
      setEn('');
      setEs('');
    }
  };
  return (
    <>
      <section class="panel">
        <h2>{t('stepTexts')}</h2>
        <p>{t('stepTextsWhat')}</p>
        <ul class="plain-list rows">
          {view.step_texts.map((s) => (
            <li key={s.step} class="row-item">
              <span>
                <strong>{s.step}</strong>: {say(s.what_to_do)}
              </span>
              {mayAnswerFor.value && (
                <WorkButton
                  kind="danger"
                  onPress={async () => void (await act.run('step-text-cleared', { step: s.step }))}
                >
                  {t('clear')}
                </WorkButton>
              )}
            </li>
          ))}
        </ul>
      </section>
      {mayAnswerFor.value && (
        <form
          class="stack panel"
          onSubmit={(e) => {
            e.preventDefault();
            void save();
          }}
        >
          <h3>{t('addStepText')}</h3>
          <Field
            label={t('stepWord')}
            value={step}
            error={act.error && isAbout(act.error, 'step') ? errorText(act.error) : null}
            onValue={setStep}
          />
          <TextArea label={t('inEnglish')} value={en} onValue={setEn} />
          <TextArea label={t('inSpanish')} value={es} onValue={setEs} />
          <ActResult act={act} />
          <WorkButton
            kind="main"
            submit
            disabled={step.trim() === '' || en === '' || es === ''}
            onPress={save}
          >
            {t('save')}
          </WorkButton>
        </form>
      )}
    </>
  );
}
