// What the sheet being typed would come to: in the proof pane where there is one beside the step, under its fields on a
// phone.
import { signal } from '@preact/signals';
import type { Tried } from '../job/trying';
import { t } from '../text/text';
import { errorText } from '../widgets/form';
import { VerdictTag } from '../widgets/verdict';
import { Remarks, SheetFigures } from './sheet_proof';

/** Null when no sheet is being typed. */
export const sheetTyped = signal<{ check: string; tried: Tried } | null>(null);

export const saysSomething = (tried: Tried): boolean => tried.judged !== null || tried.error !== null;

export function SoFar({ tried }: { tried: Tried }) {
  const { judged, error } = tried;
  if (error) return <p class="quiet">{errorText(error)}</p>;
  if (!judged) return null;
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
