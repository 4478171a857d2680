// The fields of a bench test's sheet, whatever the test: the server says what is asked.
import type { SheetFieldView } from '../api/sheet_types';
import type { ServerError } from '../api/types';
import { say } from '../session/preferences';
import '../style/sheet.css';
import { t } from '../text/text';
import { Choice, errorText, Field, isAbout, Select } from '../widgets/form';
import { CsvFill } from './csv_fill';
import { isAsked, itemAt, lengthOf, type SheetValues, unitAbove } from './sheet_values';

interface Props {
  fields: readonly SheetFieldView[];
  values: SheetValues;
  /** Pointers of what was left empty and must not be. */
  empty: readonly string[];
  error: ServerError | null;
  onValues: (values: SheetValues) => void;
}

interface OneProps extends Omit<Props, 'fields'> {
  field: SheetFieldView;
  at: string;
  /** Of a list's element: what a bare number takes from above. */
  unit?: string;
  /** Of an element that is not the first: its examples stand above. */
  again?: boolean;
}

function One({ field, at, unit, again, values, empty, error, onValues }: OneProps) {
  const value = values[at] ?? '';
  const set = (text: string) => onValues({ ...values, [at]: text });
  const refused = error && isAbout(error, at.slice(1)) ? errorText(error) : null;
  const said = refused ?? (empty.includes(at) ? t('stillEmpty') : null);
  const named = unit ? `${say(field.title)}, ${unit}` : say(field.title);
  const label = field.optional ? `${named} ${t('mayBeEmpty')}` : named;
  if (field.kind === 'word')
    return (
      <Select
        label={label}
        value={value}
        empty={t('choose')}
        options={field.choices.map((c) => ({ value: c.word, label: say(c.title) }))}
        error={said}
        onValue={set}
      />
    );
  if (field.kind === 'flag')
    return (
      <>
        <Choice
          label={label}
          value={value}
          options={[
            { value: 'yes', label: t('yes') },
            { value: 'no', label: t('no') },
          ]}
          onValue={set}
        />
        {said && (
          <p class="field-error" role="alert">
            {said}
          </p>
        )}
      </>
    );
  return (
    <Field
      label={label}
      hint={field.example && !again ? t('suchAs', { example: field.example }) : ''}
      value={value}
      error={said}
      onValue={set}
    />
  );
}

function List({ field, fromCsv, values, ...rest }: Omit<OneProps, 'at'> & { fromCsv: boolean }) {
  const count = lengthOf(field, values);
  const first = field.items[0];
  return (
    <>
      {Array.from({ length: count }, (_, i) => (
        <fieldset class="sheet-item" key={i}>
          <legend>
            {say(field.title)} {i + 1}
          </legend>
          {field.items
            .filter((item) => item.kind !== 'fixed')
            .map((item) => (
              <One
                key={item.at}
                field={item}
                at={itemAt(field, i, item)}
                unit={unitAbove(field, values, i, item)}
                again={i > 0}
                values={values}
                {...rest}
              />
            ))}
        </fieldset>
      ))}
      {first && (
        <button
          type="button"
          class="button button-plain"
          onClick={() => rest.onValues({ ...values, [itemAt(field, count, first)]: '' })}
        >
          {t('oneMoreOf', { what: say(field.title) })}
        </button>
      )}
      {fromCsv && field.items.length > 1 && <CsvFill list={field} values={values} onValues={rest.onValues} />}
    </>
  );
}

/** `fromCsv`: lists may be filled from a file. */
export function SheetFields({ fields, fromCsv = false, values, ...rest }: Props & { fromCsv?: boolean }) {
  return (
    <>
      {fields
        .filter((field) => field.kind !== 'fixed' && isAsked(field, values))
        .map((field) =>
          field.kind === 'list' ? (
            <List key={field.at} field={field} fromCsv={fromCsv} values={values} {...rest} />
          ) : (
            <One key={field.at} field={field} at={field.at} values={values} {...rest} />
          ),
        )}
    </>
  );
}
