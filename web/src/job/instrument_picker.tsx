// Which instrument took the reading: fitting ones that are in date first, the last one used already chosen.
import type { CheckView, InstrumentView } from '../api/types';
import { recall, remember } from '../session/remembered';
import { t } from '../text/text';
import { Notice, Select } from '../widgets/form';

const isIndicator = (kind: string) => kind.endsWith('indicator');

/** Asked for this kind, or another indicator where an indicator is asked for. */
export function fits(check: CheckView, instrument: InstrumentView): boolean {
  if (instrument.kind === check.instrument) return true;
  return isIndicator(check.instrument) && isIndicator(instrument.kind);
}

export function fitting(check: CheckView, instruments: readonly InstrumentView[]): InstrumentView[] {
  const offered = instruments.filter((i) => i.in_use !== false);
  const exact = offered.filter((i) => fits(check, i));
  const list = exact.length > 0 ? exact : offered.filter((i) => i.quantity === check.quantity);
  const order = (i: InstrumentView) => (i.in_date ? 0 : 2) + (i.kind === check.instrument ? 0 : 1);
  return [...list].sort((a, b) => order(a) - order(b));
}

const memoryOf = (check: CheckView) => `instrument/${check.kind}/${check.instrument}`;

/** The one last used on this device for such a check, else the first that is in date. */
export function firstChoice(check: CheckView, instruments: readonly InstrumentView[]): string {
  const list = fitting(check, instruments);
  const last = recall(memoryOf(check));
  return list.find((i) => i.id === last)?.id ?? list[0]?.id ?? '';
}

export const rememberInstrument = (check: CheckView, id: string): void => remember(memoryOf(check), id);

export function InstrumentPicker(props: {
  check: CheckView;
  instruments: readonly InstrumentView[];
  value: string;
  onValue: (id: string) => void;
  error?: string | null;
}) {
  const list = fitting(props.check, props.instruments);
  const chosen = list.find((i) => i.id === props.value);
  return (
    <>
      <Select
        label={t('instrument')}
        value={props.value}
        error={props.error ?? null}
        options={list.map((i) => ({
          value: i.id,
          label: i.in_date
            ? t('instrumentOption', { id: i.id, graduation: i.graduation })
            : t('instrumentOptionOut', { id: i.id, due: i.due }),
        }))}
        onValue={props.onValue}
      />
      {list.length === 0 && <Notice kind="plain">{t('noFittingInstrument')}</Notice>}
      {chosen && !chosen.in_date && <Notice kind="plain">{t('outOfDate', { due: chosen.due })}</Notice>}
    </>
  );
}
