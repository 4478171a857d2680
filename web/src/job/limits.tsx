// The limit that decides, with its source; the ones that lost are a tap away.
import type { CheckView, LimitView } from '../api/types';
import { say, showLimit } from '../session/preferences';
import { t } from '../text/text';

function Source({ limit }: { limit: LimitView }) {
  const source = say(limit.source);
  const obtained = say(limit.obtained);
  // A source that says itself how it was obtained does not say it twice.
  const parts = [say(limit.rank), source, source.includes(obtained) ? '' : obtained];
  return <span class="limit-source">{parts.filter(Boolean).join(' · ')}</span>;
}

export function Limits({ check }: { check: CheckView }) {
  if (check.kind === 'confirmation') return null;
  const deciding = check.limits.find((l) => l.decides);
  const others = check.limits.filter((l) => l !== deciding);
  return (
    <div class="limits">
      {deciding ? (
        <>
          <p class="limit-main">
            <span class="limit-word">{t('limit')}</span>
            <strong>{showLimit(deciding)}</strong>
          </p>
          <Source limit={deciding} />
        </>
      ) : (
        <p class="quiet">{t('noLimit')}</p>
      )}
      {deciding && (
        <details>
          <summary>{others.length > 0 ? t('otherLimits', { count: others.length }) : t('limitMore')}</summary>
          <dl class="figures">
            <div>
              <dt>{t('rule')}</dt>
              <dd>{say(deciding.rule)}</dd>
            </div>
            <div>
              <dt>{t('asWritten')}</dt>
              <dd>{deciding.as_written}</dd>
            </div>
          </dl>
          <ul class="plain-list">
            {others.map((l) => (
              <li key={l.id}>
                {showLimit(l)} <Source limit={l} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
