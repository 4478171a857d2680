// Verdicts as shape, word and colour together; the same shapes as on the printed record.
import type { Finding, Verdict } from '../api/types';
import { say } from '../session/preferences';
import { t } from '../text/text';

/** The shape alone, about a centre, for use inside a drawing. `h` is half its size. */
export function VerdictMark({ verdict, x, y, h }: { verdict: Verdict; x: number; y: number; h: number }) {
  return (
    <g class={`mark mark-${verdict}`} transform={`translate(${x} ${y}) scale(${h})`}>
      {verdict === 'pass' && (
        <>
          <circle r="1" class="mark-solid" />
          <path d="M-.46 .02L-.12 .38L.5 -.36" class="mark-cut" />
        </>
      )}
      {verdict === 'fail' && (
        <>
          <rect x="-.92" y="-.92" width="1.84" height="1.84" class="mark-solid" />
          <path d="M-.46 -.46L.46 .46M-.46 .46L.46 -.46" class="mark-cut" />
        </>
      )}
      {verdict === 'unproven' && (
        <>
          <path d="M0 -1.1L1.1 0L0 1.1L-1.1 0Z" class="mark-open" />
          <path d="M1.1 0L0 1.1L-1.1 0Z" class="mark-solid" />
        </>
      )}
      {verdict === 'not-taken' && <circle r=".74" class="mark-open" />}
    </g>
  );
}

export function VerdictIcon({ verdict }: { verdict: Verdict }) {
  return (
    <svg class="verdict-icon" viewBox="-12 -12 24 24" aria-hidden="true">
      <VerdictMark verdict={verdict} x={0} y={0} h={10} />
    </svg>
  );
}

const words = { pass: 'pass', fail: 'fail', unproven: 'unproven', 'not-taken': 'notTaken' } as const;

export const verdictWord = (verdict: Verdict): string => t(words[verdict]);

export function VerdictTag({ verdict }: { verdict: Verdict }) {
  return (
    <span class={`verdict-tag verdict-${verdict}`}>
      <VerdictIcon verdict={verdict} />
      {verdictWord(verdict)}
    </span>
  );
}

/** The verdict of a check with its reason, large. */
export function VerdictBanner({ finding }: { finding: Finding }) {
  return (
    <div class={`verdict-banner verdict-${finding.verdict}`}>
      <VerdictIcon verdict={finding.verdict} />
      <p>
        <strong>{verdictWord(finding.verdict)}</strong>
        <span>{say(finding.reason_title)}</span>
      </p>
    </div>
  );
}

/** A reading that the server has not judged: neither pass nor fail. */
export function NotJudged() {
  return (
    <span class="verdict-tag not-judged">
      <svg class="verdict-icon" viewBox="-12 -12 24 24" aria-hidden="true">
        <path d="M-8 -4H8M-8 4H8" class="mark-dash" />
      </svg>
      {t('notJudgedYet')}
    </span>
  );
}
