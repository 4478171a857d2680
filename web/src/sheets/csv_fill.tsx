// Fills a list of a bench test's sheet from a CSV file: which column is what and in which unit is chosen once and
// remembered for the next file.
import { useState } from 'preact/hooks';
import type { SheetFieldView } from '../api/sheet_types';
import { type CsvTable, parseCsv, unitOfName } from '../calc/csv_table';
import { say } from '../session/preferences';
import { recall, remember } from '../session/remembered';
import { t } from '../text/text';
import { Field, Notice, Select } from '../widgets/form';
import { itemAt, type SheetValues } from './sheet_values';

interface Source {
  column: string;
  unit: string;
}
/** By the item's place in the element. */
type Mapping = Readonly<Record<string, Source>>;

const nowhere: Source = { column: '', unit: '' };
const rowsMax = 200;

const askedItems = (list: SheetFieldView) => list.items.filter((item) => item.kind !== 'fixed');

function remembered(list: SheetFieldView): Mapping {
  try {
    return JSON.parse(recall(`csv${list.at}`) ?? '{}') as Mapping;
  } catch {
    return {};
  }
}

function cellFor(item: SheetFieldView, source: Source, table: CsvTable, row: readonly string[]): string {
  const cell = row[table.names.indexOf(source.column)] ?? '';
  return cell !== '' && item.kind === 'quantity' && source.unit !== '' ? `${cell} ${source.unit}` : cell;
}

/** The list as the file has it, in place of what was typed. */
export function filledFrom(
  list: SheetFieldView,
  table: CsvTable,
  mapping: Mapping,
  values: SheetValues,
): SheetValues {
  const kept = Object.entries(values).filter(([at]) => !at.startsWith(`${list.at}/`));
  const read = table.rows
    .slice(0, rowsMax)
    .flatMap((row, i) =>
      askedItems(list).map((item): [string, string] => [
        itemAt(list, i, item),
        cellFor(item, mapping[item.at] ?? nowhere, table, row),
      ]),
    );
  return Object.fromEntries([...kept, ...read.filter(([, text]) => text !== '')]);
}

function Columns({
  list,
  table,
  mapping,
  onMapping,
}: {
  list: SheetFieldView;
  table: CsvTable;
  mapping: Mapping;
  onMapping: (mapping: Mapping) => void;
}) {
  return (
    <>
      {askedItems(list).map((item) => {
        const source = mapping[item.at] ?? nowhere;
        return (
          <div class="csv-column" key={item.at}>
            <Select
              label={t('columnOf', { what: say(item.title) })}
              value={table.names.includes(source.column) ? source.column : ''}
              empty={t('noColumn')}
              options={table.names.map((name) => ({ value: name, label: name }))}
              onValue={(column) =>
                onMapping({ ...mapping, [item.at]: { column, unit: unitOfName(column) || source.unit } })
              }
            />
            {item.kind === 'quantity' && (
              <Field
                label={t('unitOf', { what: say(item.title) })}
                value={source.unit}
                onValue={(unit) => onMapping({ ...mapping, [item.at]: { ...source, unit } })}
              />
            )}
          </div>
        );
      })}
    </>
  );
}

export function CsvFill({
  list,
  values,
  onValues,
}: {
  list: SheetFieldView;
  values: SheetValues;
  onValues: (values: SheetValues) => void;
}) {
  const [table, setTable] = useState<CsvTable | null>(null);
  const [unreadable, setUnreadable] = useState(false);
  const [mapping, setMapping] = useState<Mapping>(() => remembered(list));
  const open = async (file: File | undefined) => {
    if (!file) return;
    const read = parseCsv(await file.text());
    setTable(read);
    setUnreadable(read === null);
  };
  const fill = () => {
    if (!table) return;
    remember(`csv${list.at}`, JSON.stringify(mapping));
    onValues(filledFrom(list, table, mapping, values));
    setTable(null);
  };
  return (
    <details>
      <summary>{t('fromCsv', { what: say(list.title) })}</summary>
      <div class="stack">
        <label class="field">
          {t('csvFile')}
          <input
            type="file"
            accept=".csv,.txt,text/csv"
            onChange={(e) => void open(e.currentTarget.files?.[0])}
          />
        </label>
        {unreadable && <Notice kind="error">{t('csvUnreadable')}</Notice>}
        {table && (
          <>
            <Columns list={list} table={table} mapping={mapping} onMapping={setMapping} />
            {table.rows.length > rowsMax && (
              <Notice kind="caution">{t('csvTooLong', { count: rowsMax })}</Notice>
            )}
            <button type="button" class="button" onClick={fill}>
              {t('fillRows', { count: Math.min(rowsMax, table.rows.length) })}
            </button>
          </>
        )}
      </div>
    </details>
  );
}
