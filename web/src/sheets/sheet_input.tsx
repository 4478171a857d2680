// What was read in a bench test, at its check: the instrument and the fields of the sheet's reading.
import { useState } from 'preact/hooks';
import type { InputProps } from '../job/inputs';
import { firstChoice, InstrumentPicker, rememberInstrument } from '../job/instrument_picker';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, isAbout, Notice } from '../widgets/form';
import { goToNextBlank } from '../widgets/next_blank';
import { SheetFields } from './sheet_fields';
import { missing, type SheetValues, sheetOf, valuesOf } from './sheet_values';

export function SheetInput({ check, instruments, replaces, error, onSend }: InputProps) {
  const [values, setValues] = useState<SheetValues>(valuesOf(check.form, replaces?.payload.sheet ?? {}));
  const [instrument, setInstrument] = useState(replaces?.instrument ?? firstChoice(check, instruments));
  const [empty, setEmpty] = useState<readonly string[]>([]);
  const send = async () => {
    const left = missing(check.form, values);
    setEmpty(left);
    if (left.length > 0) return;
    rememberInstrument(check, instrument);
    const unit = instruments.find((i) => i.id === instrument)?.unit ?? '';
    await onSend({ instrument, sheet: sheetOf(check.form, values, unit) });
  };
  const shownAtField =
    error !== null &&
    (isAbout(error, 'instrument') || Object.keys(values).some((at) => isAbout(error, at.slice(1))));
  return (
    <form
      class="stack"
      onKeyDown={goToNextBlank}
      onSubmit={(e) => {
        e.preventDefault();
        void send();
      }}
    >
      <InstrumentPicker
        check={check}
        instruments={instruments}
        value={instrument}
        onValue={setInstrument}
        error={error && isAbout(error, 'instrument') ? errorText(error) : null}
      />
      <SheetFields fields={check.form} values={values} empty={empty} error={error} onValues={setValues} />
      {error && !shownAtField && <Notice kind="error">{errorText(error)}</Notice>}
      {empty.length > 0 && <Notice kind="error">{t('sheetNeeds', { count: empty.length })}</Notice>}
      <div class="row row-wide">
        <WorkButton kind="main" submit onPress={send}>
          {t('takeReading')}
        </WorkButton>
      </div>
    </form>
  );
}
