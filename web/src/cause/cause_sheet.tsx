// The proof of a strip-down: why the pump came back, as it was read or as it is being marked.
import type { CauseAnswer } from '../api/cause_types';
import { jobPath } from '../api/client';
import type { CheckView, JobView } from '../api/types';
import { useAsked } from '../api/use_asked';
import { language } from '../session/preferences';
import '../style/seal.css';
import { t } from '../text/text';
import { Busy } from '../widgets/busy';
import { errorText, Notice } from '../widgets/form';
import { CauseWords } from './cause_told';
import { causeTyped } from './tried_cause';

export default function CauseSheet({ view, check }: { view: JobView; check: CheckView }) {
  const asked = useAsked<CauseAnswer>(`${jobPath(view.number)}/cause`, view.seq);
  const typed = causeTyped.value?.check === check.id ? causeTyped.value.told : null;
  if (asked.error) return <Notice kind="plain">{errorText(asked.error)}</Notice>;
  if (!asked.answer) return asked.cutOff ? <Notice kind="plain">{t('noAnswer')}</Notice> : <Busy />;
  const told = typed ?? asked.answer.cause;
  if (!told) return null;
  return (
    <section class="seal-sheet" aria-labelledby="cause-title" aria-live="polite">
      <h3 id="cause-title">{t('causeTitle')}</h3>
      {typed && <p class="quiet">{t('notSentYet')}</p>}
      <CauseWords told={told} />
      {!typed && (
        <a
          class="button button-plain"
          href={`${jobPath(view.number)}/letter.pdf?language=${language.value}`}
          download
        >
          {t('causeLetter')}
        </a>
      )}
    </section>
  );
}
