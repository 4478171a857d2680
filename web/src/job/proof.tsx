// The proof behind a verdict: picture or computation, what would settle it, and every reading ever taken of this check.
import type { CheckView, JobView, JudgedReading, LimitView, ReadingView } from '../api/types';
import { causeTyped } from '../cause/tried_cause';
import { keptOf } from '../outbox/outbox';
import { say, show, timeText } from '../session/preferences';
import { Remarks, SheetFigures } from '../sheets/sheet_proof';
import { SoFar, saysSomething, sheetTyped } from '../sheets/sheet_so_far';
import { Live, reading } from '../sweep/live';
import { t } from '../text/text';
import { Notice } from '../widgets/form';
import { Later } from '../widgets/later';
import { useTurn } from '../widgets/turn';
import { NotJudged, VerdictTag } from '../widgets/verdict';
import { sourceCheck } from './job_state';
import { NumberLine } from './number_line';
import { PolarPicture, SweepFigures } from './polar_picture';
import { rawText } from './raw_reading';

const decidingLimit = (check: CheckView): LimitView | null => check.limits.find((l) => l.decides) ?? null;

export function ChainBar({ check }: { check: CheckView }) {
  const shares = check.finding.chain;
  if (shares.length === 0) return null;
  return (
    <section>
      <h3>{t('chainShares')}</h3>
      <div class="chain-bar" aria-hidden="true">
        {shares.map((s, i) => (
          <svg
            key={i}
            class={`chain-part chain-${i % 4}`}
            viewBox="0 0 10 10"
            preserveAspectRatio="none"
            style={{ flexGrow: Math.max(0.02, s.fraction) }}
          >
            <rect width="10" height="10" />
          </svg>
        ))}
      </div>
      <table class="plain-table">
        <thead>
          <tr>
            <th scope="col">{t('chainPart')}</th>
            <th scope="col">{t('value')}</th>
            <th scope="col">
              <span aria-hidden="true">±</span>
              <span class="unseen">{t('uncertainty')}</span>
            </th>
            <th scope="col">{t('share')}</th>
          </tr>
        </thead>
        <tbody>
          {shares.map((s, i) => (
            <tr key={i}>
              <th scope="row">
                <span class={`chain-key chain-${i % 4}`} aria-hidden="true" />
                {say(s.name)}
              </th>
              <td>{show(s.value)}</td>
              <td>± {show(s.u)}</td>
              <td>{Math.round(s.fraction * 100)} %</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Judged({
  judged,
  check,
  taken,
}: {
  judged: JudgedReading;
  check: CheckView;
  taken: ReadingView | undefined;
}) {
  const limit = decidingLimit(check);
  const band = check.judged === 'tir' || check.judged === 'squareness' ? (limit?.upper ?? null) : null;
  return (
    <article class="judged">
      <header class="row">
        <VerdictTag verdict={judged.verdict} />
        {taken && (
          <span class="who">
            {taken.actor} · {timeText(taken.time)}
            {taken.instrument ? ` · ${taken.instrument}` : ''}
          </span>
        )}
      </header>
      {judged.sweep ? (
        <>
          <PolarPicture
            sweep={judged.sweep}
            turning={check.turning}
            band={check.judged === 'tir' ? band : null}
            size={300}
          />
          <SweepFigures sweep={judged.sweep} turning={check.turning} />
        </>
      ) : (
        <NumberLine value={judged.value} u={judged.u} limit={limit} verdict={judged.verdict} />
      )}
      <dl class="figures">
        {judged.as_written && (
          <div>
            <dt>{t('asWritten')}</dt>
            <dd class="written">{judged.as_written}</dd>
          </div>
        )}
        {judged.value && (
          <div>
            <dt>{t('judgedValue')}</dt>
            <dd>
              {show(judged.value)}
              {judged.u && <small> ± {show(judged.u)}</small>}
            </dd>
          </div>
        )}
        {judged.margin && (
          <div>
            <dt>{t('margin')}</dt>
            <dd>{show(judged.margin)}</dd>
          </div>
        )}
        {judged.probability !== null && (
          <div>
            <dt>{t('conforms')}</dt>
            <dd>
              {judged.probability > 0.999
                ? '> 99.9 %'
                : judged.probability < 0.001
                  ? '< 0.1 %'
                  : `${(judged.probability * 100).toFixed(1)} %`}
            </dd>
          </div>
        )}
      </dl>
      <SheetFigures judged={judged} />
      <p>{say(judged.reason_title)}.</p>
      <Remarks judged={judged} />
      {judged.settle && (
        <p class="settle">
          <strong>{t('settleWith')}</strong> {say(judged.settle)}
        </p>
      )}
    </article>
  );
}

function Earlier({ readings }: { readings: readonly ReadingView[] }) {
  const replaced = readings.filter((r) => r.replaced_by !== null);
  if (replaced.length === 0) return null;
  return (
    <details>
      <summary>{t('earlierReadings', { count: replaced.length })}</summary>
      <ul class="plain-list">
        {replaced.map((r) => (
          <li key={r.id}>
            <s>{rawText(r.payload)}</s>
            <span class="who">
              {r.actor} · {timeText(r.time)}
              {r.instrument ? ` · ${r.instrument}` : ''}
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Readings of this check that are still on this tablet. */
function onTablet(view: JobView, check: CheckView): ReadingView['payload'][] {
  const mine = keptOf(`job/${view.number}`).filter((k) => k.type === 'reading');
  return mine.map((k) => JSON.parse(k.payload) as ReadingView['payload']).filter((p) => p.check === check.id);
}

function OnTablet({ here }: { here: ReadingView['payload'][] }) {
  return (
    <>
      {here.map((p) => (
        <article class="judged" key={p.id}>
          <header class="row">
            <NotJudged />
            <span class="who">
              {p.actor} · {timeText(p.time)}
            </span>
          </header>
          <p class="written">{rawText(p)}</p>
        </article>
      ))}
    </>
  );
}

const sealSheet = () => import('../seal/seal_sheet').then((m) => m.default);

/** Whether the seal's service sheet is part of this check's proof. */
const asksForSheet = (check: CheckView): boolean => check.step === 'seal-service' || check.kind === 'service';

const causeSheet = () => import('../cause/cause_sheet').then((m) => m.default);

const trueSheet = () => import('../true/true_sheet').then((m) => m.default);

export function Proof({ view, check }: { view: JobView; check: CheckView }) {
  const source = sourceCheck(view, check);
  const readings = view.readings.filter((r) => r.check === source.id);
  const standing = check.finding.readings;
  const now = reading.value;
  const typed = sheetTyped.value?.check === source.id ? sheetTyped.value.tried : null;
  const drawn = useTurn();
  const here = onTablet(view, source);
  return (
    <section class="proof" aria-labelledby="proof-title" tabIndex={0}>
      <h2 id="proof-title">{t('proof')}</h2>
      <p class="proof-check">{say(check.title)}</p>
      <OnTablet here={here} />
      {now?.check === source.id && (
        <div class="live-beside">
          <Live tried={now.tried} check={check} points={now.points} />
        </div>
      )}
      {typed && (
        <div class="live-beside">
          <SoFar tried={typed} />
        </div>
      )}
      {standing.length === 0 &&
        here.length === 0 &&
        now?.check !== source.id &&
        !(typed && saysSomething(typed)) &&
        causeTyped.value?.check !== source.id && <p class="quiet">{t('noProofYet')}</p>}
      {standing.length > 1 && <p class="quiet">{t('bothStand')}</p>}
      {(drawn ? standing : []).map((j, i) => (
        <Judged
          key={j.reading ?? i}
          judged={j}
          check={check}
          taken={readings.find((r) => r.id === j.reading)}
        />
      ))}
      {drawn && <ChainBar check={check} />}
      <Earlier readings={readings} />
      {drawn && check.sheet === 'strip-down' && (
        <Later
          key={view.number}
          load={causeSheet}
          props={{ view, check }}
          otherwise={<Notice kind="plain">{t('noAnswer')}</Notice>}
        />
      )}
      {drawn && check.kind === 'sweep' && (
        <Later
          key={check.turning}
          load={trueSheet}
          props={{ view, check }}
          otherwise={<Notice kind="plain">{t('noAnswer')}</Notice>}
        />
      )}
      {drawn && asksForSheet(check) && (
        <Later
          key={view.number}
          load={sealSheet}
          props={{ view }}
          otherwise={<Notice kind="plain">{t('noAnswer')}</Notice>}
        />
      )}
    </section>
  );
}
