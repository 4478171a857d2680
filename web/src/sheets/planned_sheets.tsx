// Which bench tests a pump is to pass, and what each goes by, when its job is set up.
import { useState } from 'preact/hooks';
import type { MakeUpForm, ServerError } from '../api/types';
import { say } from '../session/preferences';
import { t } from '../text/text';
import { Choice } from '../widgets/form';
import { SheetFields } from './sheet_fields';
import { missing, type Sheet, type SheetValues, saysMore, sheetOf, valuesOf } from './sheet_values';

export type Sheets = Record<string, Sheet>;

interface Props {
  forms: MakeUpForm['sheets'];
  /** Of a job that this one is copied from. */
  first: Sheets;
  error: ServerError | null;
  /** The sheets that are complete, and how many fields of the others are still empty. */
  onSheets: (sheets: Sheets, empty: number) => void;
}

type Form = MakeUpForm['sheets'][number];

/** An earlier job's sheet that says more than the fields can: it is taken as it is. */
const asItIs = (form: Form, first: Sheets): Sheet | null => {
  const sheet = first[form.sheet];
  return sheet !== undefined && saysMore(form.fields, sheet) ? sheet : null;
};

const valuesIn = (form: Form, first: Sheets): SheetValues =>
  asItIs(form, first) ? {} : valuesOf(form.fields, first[form.sheet] ?? {});

export function PlannedSheets({ forms, first, error, onSheets }: Props) {
  const [chosen, setChosen] = useState<Record<string, SheetValues>>(() =>
    Object.fromEntries(
      forms
        .filter((form) => first[form.sheet] !== undefined)
        .map((form) => [form.sheet, valuesIn(form, first)]),
    ),
  );
  const tell = (next: Record<string, SheetValues>) => {
    setChosen(next);
    const sheets: Sheets = {};
    let empty = 0;
    for (const form of forms) {
      const values = next[form.sheet];
      if (values === undefined) continue;
      const kept = asItIs(form, first);
      if (kept) {
        sheets[form.sheet] = kept;
        continue;
      }
      const left = missing(form.fields, values).length;
      if (left === 0) sheets[form.sheet] = sheetOf(form.fields, values);
      empty += left;
    }
    onSheets(sheets, empty);
  };
  const choose = (form: Form, yes: boolean) => {
    const { [form.sheet]: _gone, ...others } = chosen;
    tell(yes ? { ...others, [form.sheet]: valuesIn(form, first) } : others);
  };
  return (
    <section class="panel">
      <h2>{t('benchTests')}</h2>
      {forms.map((form) => {
        const values = chosen[form.sheet];
        const kept = asItIs(form, first);
        return (
          <div class="stack" key={form.sheet}>
            <Choice
              label={say(form.title)}
              value={values === undefined ? 'no' : 'yes'}
              options={[
                { value: 'yes', label: t('yes') },
                { value: 'no', label: t('no') },
              ]}
              onValue={(v) => choose(form, v === 'yes')}
            />
            {values !== undefined && kept && <p class="hint">{t('sheetAsItIs')}</p>}
            {values !== undefined && !kept && (
              <SheetFields
                fields={form.fields}
                values={values}
                empty={[]}
                error={error}
                onValues={(v) => tell({ ...chosen, [form.sheet]: v })}
              />
            )}
          </div>
        );
      })}
    </section>
  );
}
