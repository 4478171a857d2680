// What was read in a bench test, at its check: the instrument and the fields of the sheet's reading.
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { CheckView, JobView, LoggedRow, ReadingView } from '../api/types';
import { readingPayload } from '../job/bench_acts';
import type { InputProps } from '../job/inputs';
import { firstChoice, InstrumentPicker, rememberInstrument } from '../job/instrument_picker';
import { useTried } from '../job/trying';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, isAbout, Notice } from '../widgets/form';
import { goToNextBlank } from '../widgets/next_blank';
import { Recording } from './recording';
import { SheetFields } from './sheet_fields';
import { SoFar, sheetTyped } from './sheet_so_far';
import { completeValues, missing, type SheetValues, sheetOf, valuesOf, withRow } from './sheet_values';

/** What stands in the fields, with every row of a logger in its list as it comes in. */
function useValues(view: JobView, check: CheckView, replaces: ReadingView | null) {
  const [values, setValues] = useState<SheetValues>(valuesOf(check.form, replaces?.payload.sheet ?? {}));
  const readUpTo = Math.max(0, ...view.readings.filter((r) => r.check === check.id).map((r) => r.seq));
  const takenUpTo = useRef(readUpTo);
  const list = check.form.find((field) => field.kind === 'list');
  const coming = view.logged_rows.filter((row) => row.check === check.id && row.seq > takenUpTo.current);
  const last = coming[coming.length - 1]?.seq ?? 0;
  useLayoutEffect(() => {
    if (!list || coming.length === 0) return;
    takenUpTo.current = last;
    setValues((before) => coming.reduce((all, { row }) => withRow(list, all, row), before));
  }, [last]);
  const addRow = (row: LoggedRow['row']) => list && setValues((before) => withRow(list, before, row));
  return { values, setValues, addRow, fromLogger: takenUpTo.current > readUpTo };
}

export function SheetInput({
  view,
  check,
  instruments,
  replaces,
  error,
  onSend,
}: InputProps & { view: JobView }) {
  const { values, setValues, addRow, fromLogger } = useValues(view, check, replaces);
  const [instrument, setInstrument] = useState(replaces?.instrument ?? firstChoice(check, instruments));
  const [empty, setEmpty] = useState<readonly string[]>([]);
  const unit = instruments.find((i) => i.id === instrument)?.unit ?? '';
  const settled = completeValues(check.form, values);
  const tried = useTried(
    view.number,
    settled && instrument !== ''
      ? JSON.stringify(readingPayload(check.id, { instrument, sheet: sheetOf(check.form, settled, unit) }))
      : null,
  );
  useEffect(() => {
    sheetTyped.value = { check: check.id, tried };
    return () => {
      sheetTyped.value = null;
    };
  }, [tried, check.id]);
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
      {fromLogger && <Notice kind="plain">{t('fromLogger')}</Notice>}
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
      {check.sheet === 'vibration' && (
        <Recording
          job={view.number}
          step={check.step}
          check={check.id}
          onVelocity={(place, velocity) => addRow({ place, velocity })}
        />
      )}
      <div class="live-inline">
        <SoFar tried={tried} />
      </div>
      <div class="row row-wide">
        <WorkButton kind="main" submit onPress={send}>
          {t('takeReading')}
        </WorkButton>
      </div>
    </form>
  );
}
