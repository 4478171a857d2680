// What was read in a bench test, at its check: the instrument and the fields of the sheet's reading.
import { useState } from 'preact/hooks';
import { readingPayload } from '../job/bench_acts';
import type { InputProps } from '../job/inputs';
import { firstChoice, InstrumentPicker, rememberInstrument } from '../job/instrument_picker';
import { type Tried, useTried } from '../job/trying';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, isAbout, Notice } from '../widgets/form';
import { goToNextBlank } from '../widgets/next_blank';
import { VerdictTag } from '../widgets/verdict';
import { SheetFields } from './sheet_fields';
import { Remarks, SheetFigures } from './sheet_proof';
import { completeValues, missing, type SheetValues, sheetOf, valuesOf } from './sheet_values';

/** What it would come to if it were sent as it stands. */
function SoFar({ tried }: { tried: Tried }) {
  const { judged } = tried;
  if (!judged || tried.error) return null;
  return (
    <section class="live" aria-label={t('notSentYet')}>
      <p class="row">
        <VerdictTag verdict={judged.verdict} />
        <span>{t('notSentYet')}</span>
      </p>
      <SheetFigures judged={judged} />
      <Remarks judged={judged} />
    </section>
  );
}

export function SheetInput({
  job,
  check,
  instruments,
  replaces,
  error,
  onSend,
}: InputProps & { job: string }) {
  const [values, setValues] = useState<SheetValues>(valuesOf(check.form, replaces?.payload.sheet ?? {}));
  const [instrument, setInstrument] = useState(replaces?.instrument ?? firstChoice(check, instruments));
  const [empty, setEmpty] = useState<readonly string[]>([]);
  const unit = instruments.find((i) => i.id === instrument)?.unit ?? '';
  const settled = completeValues(check.form, values);
  const tried = useTried(
    job,
    settled && instrument !== ''
      ? JSON.stringify(readingPayload(check.id, { instrument, sheet: sheetOf(check.form, settled, unit) }))
      : null,
  );
  const send = async () => {
    const left = missing(check.form, values);
    setEmpty(left);
    if (left.length > 0) return;
    rememberInstrument(check, instrument);
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
      <SheetFields
        fields={check.form}
        fromCsv
        values={values}
        empty={empty}
        error={error}
        onValues={setValues}
      />
      {error && !shownAtField && <Notice kind="error">{errorText(error)}</Notice>}
      {empty.length > 0 && <Notice kind="error">{t('sheetNeeds', { count: empty.length })}</Notice>}
      <SoFar tried={tried} />
      <div class="row row-wide">
        <WorkButton kind="main" submit onPress={send}>
          {t('takeReading')}
        </WorkButton>
      </div>
    </form>
  );
}
