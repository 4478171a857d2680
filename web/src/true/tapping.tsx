// The bracket tapped over under the dial: where the dial stands, what it has to read, and how far there is to go.
import { useState } from 'preact/hooks';
import type { SweepRemedy } from '../api/types';
import { numberOf } from '../calc/plain_number';
import { leftToGo, moveOf, readingAtEnd } from '../calc/tapping';
import { clockPosition, degrees, withinTurn } from '../calc/units';
import { t } from '../text/text';
import { Choice, Field } from '../widgets/form';

const signed = (value: number, decimals: number): string =>
  `${value > 0 ? '+' : value < 0 ? '−' : ''}${Math.abs(value).toFixed(decimals)}`;

export function Tapping({ remedy }: { remedy: SweepRemedy }) {
  const [side, setSide] = useState<'toward' | 'opposite'>('toward');
  const [start, setStart] = useState('0');
  const [now, setNow] = useState('');
  const move = moveOf(remedy.moved ?? '');
  if (!move || remedy.toward_deg === undefined) return null;
  // To the nearest half hour, as a hand finds it; what that costs of the move can not be read.
  const clock = (deg: number) =>
    t('oclock', { clock: clockPosition(withinTurn(degrees(Math.round(deg / 15) * 15))) });
  const opposite = side === 'opposite';
  const first = numberOf(start) ?? 0;
  const shown = (value: number) => `${signed(value, move.decimals)} ${move.unit}`;
  const reads = numberOf(now);
  const left = reads === null ? null : leftToGo(move, first, reads, opposite);
  const size = left === null ? '' : `${Math.abs(left).toFixed(move.decimals)} ${move.unit}`;
  return (
    <section class="stack">
      <h4>{t('tapTitle')}</h4>
      <Choice
        label={t('tapDialStands')}
        value={side}
        options={[
          { value: 'toward', label: clock(remedy.toward_deg) },
          { value: 'opposite', label: clock(remedy.toward_deg + 180) },
        ]}
        onValue={(v) => setSide(v === 'opposite' ? 'opposite' : 'toward')}
      />
      <div class="row">
        <Field label={t('tapStart')} value={start} inputMode="decimal" onValue={setStart} />
        <Field label={t('tapNow')} value={now} inputMode="decimal" onValue={setNow} />
      </div>
      <p aria-live="polite">
        <strong>
          {t('tapUntil', {
            clock: clock(remedy.toward_deg),
            reading: shown(readingAtEnd(move, first, opposite)),
          })}
        </strong>{' '}
        {left !== null && t(left >= 0 ? 'tapLeft' : 'tapTooFar', { length: size })}
      </p>
      <p class="hint">{t('tapHint')}</p>
    </section>
  );
}
