// What the evidence says of the cause: the headline, what to change, what to look at next, and what speaks for and
// against each cause.
import type { CauseTold, RankedCause } from '../api/cause_types';
import { say } from '../session/preferences';
import '../style/cause.css';
import { t } from '../text/text';

function Evidence({ cause }: { cause: RankedCause }) {
  if (cause.evidence.length === 0) return null;
  return (
    <ul class="cause-evidence">
      {cause.evidence.map((e) => (
        <li key={e.finding}>
          <span class="cause-weight">
            <span aria-hidden="true">
              {e.weight > 0 ? '+' : '−'}
              {Math.abs(e.weight).toFixed(1)}
            </span>
            <span class="unseen">{t(e.weight > 0 ? 'causeFor' : 'causeAgainst')}</span>
          </span>
          <span>
            {say(e.title)}: {say(e.seen)}
            {e.source && <span class="seal-limit">{e.source}</span>}
          </span>
        </li>
      ))}
    </ul>
  );
}

function Bar({ probability }: { probability: number }) {
  return (
    <svg class="cause-bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
      <rect class="cause-bar-all" width="100" height="6" />
      <rect class="cause-bar-part" width={100 * probability} height="6" />
    </svg>
  );
}

export function CauseWords({ told }: { told: CauseTold }) {
  const named = told.causes.filter((c) => c.named);
  return (
    <div class="stack">
      <p class="cause-headline">
        <strong>{say(told.headline)}.</strong>
      </p>
      {told.track && <p>{say(told.track)}</p>}
      {named.length > 0 && (
        <section>
          <h4>{t('causeChange')}</h4>
          {named.map((c) => (
            <p key={c.cause}>{say(c.change)}</p>
          ))}
        </section>
      )}
      {told.next.length > 0 && (
        <section>
          <h4>{t('causeNext')}</h4>
          <ol class="cause-next">
            {told.next.map((n) => (
              <li key={n.finding}>
                <strong>{say(n.title)}?</strong> {say(n.look)} <span class="quiet">({say(n.part)})</span>
              </li>
            ))}
          </ol>
        </section>
      )}
      {told.causes.some((c) => c.evidence.length > 0) && (
        <section>
          <h4>{t('causeRanked')}</h4>
          {told.causes.map((c) => (
            <details key={c.cause} class="cause" open={c.named}>
              <summary>
                {say(c.title)}, {say(c.chance)}
                <Bar probability={c.probability} />
              </summary>
              <Evidence cause={c} />
            </details>
          ))}
          <p class="hint">{t('causeEstimates')}</p>
        </section>
      )}
      {told.unknown.length > 0 && (
        <p class="quiet">
          {t('causeUnknown')} {told.unknown.join(', ')}
        </p>
      )}
    </div>
  );
}
