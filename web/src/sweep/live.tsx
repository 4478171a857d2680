// What the server says of a sweep that is not sent yet: in the proof pane where there is one beside the step, under the
// pad on a phone.
import { signal } from '@preact/signals';
import type { CheckView } from '../api/types';
import { PolarPicture, SweepFigures } from '../job/polar_picture';
import type { Tried } from '../job/trying';
import { say, showLimit } from '../session/preferences';
import { t } from '../text/text';
import { Notice } from '../widgets/form';
import { VerdictTag } from '../widgets/verdict';
import { leastPoints } from './trying';

/** The sweep being read now; null when there is none. */
export const reading = signal<{ check: string; tried: Tried; points: number } | null>(null);

export function Live({ tried, check, points }: { tried: Tried; check: CheckView; points: number }) {
  const limit = check.limits.find((l) => l.decides);
  const judged = tried.judged;
  if (tried.cutOff) return <Notice kind="plain">{t('liveCutOff')}</Notice>;
  if (!judged?.sweep)
    return <p class="quiet live-wait">{t('liveFrom', { count: Math.max(0, leastPoints - points) })}</p>;
  return (
    <div class="live">
      <p class="row">
        <VerdictTag verdict={judged.verdict} />
        <span>{t('notSentYet')}</span>
      </p>
      <PolarPicture
        sweep={judged.sweep}
        turning={check.turning}
        band={check.judged === 'tir' ? (limit?.upper ?? null) : null}
        size={300}
      />
      <SweepFigures sweep={judged.sweep} turning={check.turning} warns />
      <p>
        {say(judged.reason_title)}
        {limit && ` · ${t('limit')} ${showLimit(limit)}`}
      </p>
      {judged.settle && (
        <p class="settle">
          <strong>{t('settleWith')}</strong> {say(judged.settle)}
        </p>
      )}
    </div>
  );
}
