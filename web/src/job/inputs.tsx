// The one input of a check: seen or not, a number, or diameters. What the hand writes is sent as written.
import { useState } from 'preact/hooks';
import type { CheckView, InstrumentView, ReadingView, ServerError } from '../api/types';
import { isBlank } from '../calc/typed_number';
import { angleText, clockPosition, degrees } from '../calc/units';
import type { Outcome } from '../outbox/outbox';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice, TextArea } from '../widgets/form';
import { goToNextBlank } from '../widgets/next_blank';
import type { ReadingBody } from './bench_acts';
import { firstChoice, InstrumentPicker, rememberInstrument } from './instrument_picker';

export interface InputProps {
  check: CheckView;
  instruments: readonly InstrumentView[];
  /** The reading this one corrects. */
  replaces: ReadingView | null;
  error: ServerError | null;
  /** Tells what became of the reading. */
  onSend: (body: ReadingBody) => Promise<Outcome['state']>;
}

const unitOf = (instruments: readonly InstrumentView[], id: string) =>
  instruments.find((i) => i.id === id)?.unit ?? '';

function General({ error, fields }: { error: ServerError | null; fields: readonly string[] }) {
  if (!error || fields.some((f) => isAbout(error, f))) return null;
  return <Notice kind="error">{errorText(error)}</Notice>;
}

export function ConfirmationInput({ error, onSend }: InputProps) {
  const [note, setNote] = useState('');
  const [missing, setMissing] = useState(false);
  const withNote = (done: boolean): ReadingBody => (isBlank(note) ? { done } : { done, note: note.trim() });
  const notSo = async () => {
    setMissing(isBlank(note));
    if (!isBlank(note)) await onSend(withNote(false));
  };
  return (
    <div class="stack">
      <Field
        label={t('noteOptional')}
        value={note}
        onValue={setNote}
        error={missing ? t('sayWhatIsWrong') : error && isAbout(error, 'note') ? errorText(error) : null}
      />
      <General error={error} fields={['note']} />
      <div class="row row-wide">
        <WorkButton kind="main" onPress={async () => void (await onSend(withNote(true)))}>
          {t('confirmDone')}
        </WorkButton>
        <WorkButton kind="plain" onPress={notSo}>
          {t('confirmNotSo')}
        </WorkButton>
      </div>
    </div>
  );
}

export function ValueInput({ check, instruments, replaces, error, onSend }: InputProps) {
  const before = replaces?.payload.values ?? (replaces?.payload.value ? [replaces.payload.value] : ['']);
  const [values, setValues] = useState<string[]>(before);
  const [instrument, setInstrument] = useState(replaces?.instrument ?? firstChoice(check, instruments));
  const [empty, setEmpty] = useState(false);
  const unit = unitOf(instruments, instrument);
  const errorOf = (i: number): string | null => {
    if (empty && isBlank(values[i] ?? '')) return t('writeReading');
    if (!error) return null;
    const named =
      isAbout(error, 'value') || isAbout(error, `values/${i}`) || error.field.includes(`values/${i}`);
    return named || (values.length === 1 && isAbout(error, 'values')) ? errorText(error) : null;
  };
  const send = async () => {
    const written = values.filter((v) => !isBlank(v));
    setEmpty(written.length === 0);
    if (written.length === 0) return;
    rememberInstrument(check, instrument);
    const first = written[0] ?? '';
    await onSend(written.length === 1 ? { instrument, value: first } : { instrument, values: written });
  };
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
      {values.map((value, i) => (
        <Field
          key={i}
          big
          label={i === 0 ? t('reading') : t('readingAgain', { n: i + 1 })}
          hint={i === 0 && unit ? t('bareNumber', { unit }) : ''}
          inputMode="decimal"
          value={value}
          onValue={(v) => setValues(values.map((w, k) => (k === i ? v : w)))}
          error={errorOf(i)}
        />
      ))}
      <General
        error={error}
        fields={['value', 'values', 'instrument', ...values.map((_, i) => `values/${i}`)]}
      />
      <div class="row row-wide">
        <WorkButton kind="main" submit onPress={send}>
          {t('takeReading')}
        </WorkButton>
        <button type="button" class="button button-plain" onClick={() => setValues([...values, ''])}>
          {t('oneMore')}
        </button>
      </div>
    </form>
  );
}

interface Row {
  name: string;
  cells: string[];
}

export function SizeInput({ check, instruments, replaces, error, onSend }: InputProps) {
  const [clocks, setClocks] = useState<number[]>([0, 90]);
  const [rows, setRows] = useState<Row[]>([
    { name: t('sectionOne'), cells: ['', ''] },
    { name: t('sectionTwo'), cells: ['', ''] },
  ]);
  const [temperature, setTemperature] = useState('');
  const [material, setMaterial] = useState('');
  const [instrument, setInstrument] = useState(replaces?.instrument ?? firstChoice(check, instruments));
  const [empty, setEmpty] = useState(false);
  const unit = unitOf(instruments, instrument);
  const clockName = (deg: number) =>
    check.turning === 'standing'
      ? t('oclock', { clock: clockPosition(degrees(deg)) })
      : angleText(degrees(deg));
  const write = (r: number, c: number, text: string) =>
    setRows(
      rows.map((row, i) =>
        i === r ? { ...row, cells: row.cells.map((v, k) => (k === c ? text : v)) } : row,
      ),
    );
  const addClock = () => {
    const next = clocks.length === 2 ? [0, 60, 120] : [0, 45, 90, 135];
    setClocks(next);
    setRows(rows.map((row) => ({ ...row, cells: next.map((_, i) => row.cells[i] ?? '') })));
  };
  const send = async () => {
    const points = rows.flatMap((row) =>
      row.cells.flatMap((text, i) =>
        isBlank(text) ? [] : [{ section: row.name.trim(), clock_deg: clocks[i] ?? 0, diameter: text }],
      ),
    );
    setEmpty(points.length === 0);
    if (points.length === 0) return;
    rememberInstrument(check, instrument);
    await onSend({
      instrument,
      size: {
        points,
        ...(isBlank(temperature) ? {} : { part_temperature: temperature }),
        ...(isBlank(material) ? {} : { material: material.trim() }),
      },
    });
  };
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
      {unit && <p class="hint">{t('bareNumber', { unit })}</p>}
      <table class="size-grid">
        <thead>
          <tr>
            <th scope="col">{t('sectionName')}</th>
            {clocks.map((c) => (
              <th scope="col" key={c}>
                {clockName(c)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            <tr key={r}>
              <td>
                <input
                  aria-label={t('sectionName')}
                  value={row.name}
                  onInput={(e) =>
                    setRows(rows.map((w, i) => (i === r ? { ...w, name: e.currentTarget.value } : w)))
                  }
                />
              </td>
              {row.cells.map((cell, c) => (
                <td key={clocks[c]}>
                  <input
                    class="cell"
                    inputMode="decimal"
                    aria-label={`${row.name}, ${clockName(clocks[c] ?? 0)}`}
                    value={cell}
                    onInput={(e) => write(r, c, e.currentTarget.value)}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <div class="row">
        <button
          type="button"
          class="button button-plain"
          onClick={() =>
            setRows([
              ...rows,
              { name: t('sectionMore', { n: rows.length + 1 }), cells: clocks.map(() => '') },
            ])
          }
        >
          {t('addSection')}
        </button>
        {clocks.length < 4 && (
          <button type="button" class="button button-plain" onClick={addClock}>
            {t('addClock')}
          </button>
        )}
      </div>
      <details>
        <summary>{t('partTemperature')}</summary>
        <Field
          label={t('temperatureOfPart')}
          hint={t('temperatureHint')}
          value={temperature}
          onValue={setTemperature}
          error={error && isAbout(error, 'part_temperature') ? errorText(error) : null}
        />
        <Field
          label={t('material')}
          value={material}
          onValue={setMaterial}
          error={error && isAbout(error, 'material') ? errorText(error) : null}
        />
      </details>
      {empty && <Notice kind="error">{t('writeReading')}</Notice>}
      <General error={error} fields={['instrument', 'part_temperature', 'material']} />
      <WorkButton kind="main" submit onPress={send}>
        {t('takeReading')}
      </WorkButton>
    </form>
  );
}

export function NoteInput({ onSend }: { onSend: (text: string) => Promise<void> }) {
  const [text, setText] = useState('');
  return (
    <div class="stack">
      <TextArea label={t('newNote')} value={text} onValue={setText} />
      <WorkButton
        disabled={isBlank(text)}
        onPress={async () => {
          await onSend(text.trim());
          setText('');
        }}
      >
        {t('addNote')}
      </WorkButton>
    </div>
  );
}
