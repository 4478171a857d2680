// Takes the shop's older records in from a CSV file: which column means what is said once and kept by the shop; what
// would come of it is shown before anything is kept.
import { useEffect, useState } from 'preact/hooks';
import { CutOff, post, Refused } from '../api/client';
import type { OldColumns, OldJob, OldLook, OldReading, OldTable, OldTaken } from '../api/old_types';
import type { ServerError, ShopView } from '../api/types';
import { nextDeviceSeq } from '../outbox/device_seq';
import { newKey } from '../outbox/uuid';
import { mayAnswerFor, thisDevice } from '../session/session';
import { type TextKey, t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { Choice, errorText, Field, Notice, Select } from '../widgets/form';
import {
  emptyColumns,
  fitsHeader,
  isEnough,
  type OldField,
  oldFields,
  tidyColumns,
  wordsOf,
} from './old_columns';

interface OpenFile {
  name: string;
  csv: string;
  header: string[];
}

const pauseMs = 400;

const fieldNames: Record<OldField, TextKey> = {
  serial: 'serial',
  came_in: 'oldCameIn',
  went_out: 'oldWentOut',
  number: 'jobNumber',
  pump: 'pumpFamily',
  customer: 'customer',
  seal: 'returnsSeal',
  reason: 'reasonIn',
  came_for: 'oldCameFor',
  found: 'oldFound',
  changed: 'oldChanged',
};

const readingNames: [string, TextKey][] = [
  ['impeller-sweep', 'oldImpellerSweep'],
  ['sleeve-runout', 'oldSleeveRunout'],
  ['shaft-runout', 'oldShaftRunout'],
  ['register-runout', 'oldRegisterRunout'],
  ['face-runout', 'oldFaceRunout'],
  ['seat-squareness', 'oldSeatSquareness'],
  ['end-float', 'oldEndFloat'],
];

function Readings({
  header,
  columns,
  onColumns,
}: {
  header: readonly string[];
  columns: OldColumns;
  onColumns: (c: OldColumns) => void;
}) {
  const list = columns.readings ?? [];
  const put = (check: string, change: Partial<OldReading>) => {
    const before = list.find((r) => r.check === check) ?? { check, column: '', unit: 'thou' };
    const after = { ...before, ...change };
    const others = list.filter((r) => r.check !== check);
    onColumns({ ...columns, readings: after.column === '' ? others : [...others, after] });
  };
  return (
    <details>
      <summary>{t('oldReadings')}</summary>
      <div class="stack">
        {readingNames.map(([check, key]) => {
          const reading = list.find((r) => r.check === check);
          return (
            <div class="field-row" key={check}>
              <Select
                label={t(key)}
                value={reading?.column ?? ''}
                empty={t('noColumn')}
                options={header.map((name) => ({ value: name, label: name }))}
                onValue={(column) => put(check, { column })}
              />
              {reading && (
                <Field
                  label={t('unitOf', { what: t(key) })}
                  list={['thou', 'in', 'mm', 'µm']}
                  value={reading.unit}
                  onValue={(unit) => put(check, { unit })}
                />
              )}
            </div>
          );
        })}
      </div>
    </details>
  );
}

function Columns({
  header,
  columns,
  onColumns,
}: {
  header: readonly string[];
  columns: OldColumns;
  onColumns: (c: OldColumns) => void;
}) {
  const names = header.filter((name) => name !== '').map((name) => ({ value: name, label: name }));
  const [fault, setFault] = useState((columns.fault_words ?? []).join(', '));
  const [other, setOther] = useState((columns.other_words ?? []).join(', '));
  return (
    <>
      <div class="field-row">
        {oldFields.map((field) => (
          <Select
            key={field}
            label={t(fieldNames[field])}
            value={columns[field] ?? ''}
            empty={t('noColumn')}
            options={names}
            onValue={(name) => onColumns({ ...columns, [field]: name })}
          />
        ))}
      </div>
      <Choice
        label={t('oldDates')}
        value={columns.dates}
        options={[
          { value: 'year-month-day', label: '2024-03-31' },
          { value: 'day-month-year', label: '31.3.2024' },
          { value: 'month-day-year', label: '3/31/2024' },
        ]}
        onValue={(dates) => onColumns({ ...columns, dates: dates as OldColumns['dates'] })}
      />
      {columns.came_for && (
        <div class="field-row">
          <Field
            label={t('oldFaultWords')}
            hint={t('oldWordsHint')}
            value={fault}
            onValue={(text) => {
              setFault(text);
              onColumns({ ...columns, fault_words: wordsOf(text) });
            }}
          />
          <Field
            label={t('oldOtherWords')}
            hint={t('oldWordsHint')}
            value={other}
            onValue={(text) => {
              setOther(text);
              onColumns({ ...columns, other_words: wordsOf(text) });
            }}
          />
        </div>
      )}
      <Readings header={header} columns={columns} onColumns={onColumns} />
    </>
  );
}

function OneRow({ job }: { job: OldJob }) {
  const why = job.came_for && t(job.came_for === 'fault' ? 'cameForFault' : 'cameForOther');
  return (
    <li>
      <strong>{job.number}</strong> · {job.serial} ·{' '}
      {[job.pump, job.customer, job.seal].filter(Boolean).join(' · ')}
      <br />
      {job.came_in} → {job.went_out ?? t('oldNeverOut')}
      {why && ` · ${why}`}
      {job.reason && ` · ${job.reason}`}
      <span class="who">
        {[job.found, job.changed, ...Object.values(job.readings ?? {})].filter(Boolean).join(' · ')}
      </span>
    </li>
  );
}

function Understood({ table }: { table: OldTable }) {
  const unknown = Object.entries(table.words_unknown);
  return (
    <>
      <p>
        <strong>{t('oldFit', { fit: table.fit, wrong: table.wrong_count })}</strong>
      </p>
      {table.first.length > 0 && (
        <>
          <p>{t('oldUnderstood')}</p>
          <ul class="plain-list rows">
            {table.first.map((job) => (
              <OneRow key={job.line} job={job} />
            ))}
          </ul>
        </>
      )}
      {unknown.length > 0 && (
        <Notice kind="plain">
          {t('oldWordsUnknown', { words: unknown.map(([word, count]) => `“${word}” (${count})`).join(', ') })}
        </Notice>
      )}
      {table.wrong.length > 0 && (
        <details open>
          <summary>{t('oldWrong', { count: table.wrong_count })}</summary>
          <ul
            class="plain-list old-wrong"
            tabIndex={0}
            aria-label={t('oldWrong', { count: table.wrong_count })}
          >
            {table.wrong.map((w) => (
              <li key={`${w.place}${w.field}`}>
                <strong>{w.place}</strong>, {w.field}: {w.value}. {t('validWouldBe', { valid: w.valid })}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function saidOf(error: unknown): ServerError | 'cut-off' {
  if (error instanceof Refused) return error.error;
  if (error instanceof CutOff) return 'cut-off';
  throw error;
}

/** What would come of the file, asked again as columns are named. */
function useLook(file: OpenFile | null, columns: OldColumns) {
  const [table, setTable] = useState<OldTable | null>(null);
  const [error, setError] = useState<ServerError | 'cut-off' | null>(null);
  const asked = JSON.stringify(tidyColumns(columns));
  useEffect(() => {
    setTable(null);
    setError(null);
    if (!file || !isEnough(columns)) return;
    const stop = new AbortController();
    const timer = setTimeout(async () => {
      try {
        const body = { file: file.name, csv: file.csv, columns: JSON.parse(asked) };
        setTable((await post<OldLook>('/api/shop/old-jobs/look', body, { signal: stop.signal })).table);
      } catch (e) {
        if (!stop.signal.aborted) setError(saidOf(e));
      }
    }, pauseMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [file, asked]);
  return { table, error };
}

export function OldRecords({ view }: { view: ShopView }) {
  const [file, setFile] = useState<OpenFile | null>(null);
  const [columns, setColumns] = useState<OldColumns>(emptyColumns);
  const [name, setName] = useState('');
  const [said, setSaid] = useState<string | null>(null);
  const [error, setError] = useState<ServerError | 'cut-off' | null>(null);
  const look = useLook(file, columns);
  const trouble = error ?? look.error;
  const open = async (chosen: File | undefined) => {
    if (!chosen) return;
    setSaid(null);
    setError(null);
    setFile(null);
    try {
      const csv = await chosen.text();
      const { header } = await post<OldLook>('/api/shop/old-jobs/look', { file: chosen.name, csv });
      const saved = view.old_columns.find((c) => fitsHeader(c.columns, header));
      setColumns(saved ? saved.columns : emptyColumns);
      setName(saved?.name ?? '');
      setFile({ name: chosen.name, csv, header });
    } catch (e) {
      setError(saidOf(e));
    }
  };
  const take = async () => {
    if (!file) return;
    setError(null);
    const device = thisDevice.value;
    try {
      const body = {
        key: newKey(),
        device,
        device_seq: await nextDeviceSeq(device),
        file: file.name,
        csv: file.csv,
        columns: tidyColumns(columns),
        ...(name.trim() === '' ? {} : { name: name.trim() }),
      };
      const done = await post<OldTaken>('/api/shop/old-jobs', body, { patient: true });
      setSaid(t('oldTaken', { taken: done.taken, known: done.known }));
      setFile(null);
    } catch (e) {
      setError(saidOf(e));
    }
  };
  return (
    <section class="panel">
      <h2>{t('oldRecords')}</h2>
      <p>{t('oldWhat')}</p>
      {!mayAnswerFor.value && <Notice kind="plain">{t('oldLeadOnly')}</Notice>}
      {mayAnswerFor.value && (
        <div class="stack">
          <label class="field">
            {t('csvFile')}
            <input
              type="file"
              accept=".csv,.txt,text/csv"
              onChange={(e) => {
                const chosen = e.currentTarget.files?.[0];
                void open(chosen);
                e.currentTarget.value = '';
              }}
            />
          </label>
          {trouble && (
            <Notice kind="error">{trouble === 'cut-off' ? t('noAnswer') : errorText(trouble)}</Notice>
          )}
          {said && <p role="status">{said}</p>}
          {file && (
            <>
              <h3>{file.name}</h3>
              <Columns key={file.name} header={file.header} columns={columns} onColumns={setColumns} />
              {look.table && <Understood table={look.table} />}
              {look.table && look.table.fit > 0 && (
                <>
                  <Field
                    label={t('oldColumnsName')}
                    hint={t('oldColumnsHint')}
                    value={name}
                    onValue={setName}
                  />
                  <WorkButton kind="main" onPress={take}>
                    {t('oldTake', { count: look.table.fit })}
                  </WorkButton>
                </>
              )}
            </>
          )}
        </div>
      )}
    </section>
  );
}
