// Which part is out, which way, what to sweep next, and the least work that puts it right.
import { jobPath } from '../api/client';
import type { TrueChain, TrueRemedy, TrueRunning, TrueStation } from '../api/true_types';
import type { CheckView, JobView } from '../api/types';
import { useAsked } from '../api/use_asked';
import { say, show } from '../session/preferences';
import '../style/seal.css';
import '../style/true.css';
import { t } from '../text/text';
import { Busy } from '../widgets/busy';
import { errorText, Notice } from '../widgets/form';
import { VerdictIcon, verdictWord } from '../widgets/verdict';
import { Tapping } from './tapping';
import { TruePictureFigure } from './true_picture';

function Found({ chain }: { chain: TrueChain }) {
  return (
    <div class={`verdict-banner verdict-${chain.verdict}`}>
      <VerdictIcon verdict={chain.verdict} />
      <p>
        <strong>{verdictWord(chain.verdict)}</strong>
        <span>{say(chain.found)}</span>
      </p>
    </div>
  );
}

function Todo({ chain }: { chain: TrueChain }) {
  if (chain.advice.length === 0 && !chain.look_alikes && !chain.next) return null;
  return (
    <div class="settle stack">
      {chain.advice.map((text) => (
        <p key={text.en}>
          <strong>{say(text)}</strong>
        </p>
      ))}
      {chain.look_alikes && <p>{say(chain.look_alikes)}</p>}
      {chain.next && <p>{say(chain.next)}</p>}
    </div>
  );
}

function Sweep({ station }: { station: TrueStation }) {
  return (
    <tr>
      <th scope="row">
        {say(station.title)}
        <span class="seal-limit">
          {station.shares.map((s) => `${say(s.part)} ${show(s.tir)}`).join(' · ')}
        </span>
      </th>
      <td class={station.beyond ? 'true-beyond' : ''}>
        {show(station.tir)}
        {station.limit && <span class="seal-limit">{t('trueOf', { limit: show(station.limit) })}</span>}
      </td>
      <td>{station.high_spot ? say(station.high_spot) : t('trueNoHighSpot')}</td>
    </tr>
  );
}

function Sweeps({ stations }: { stations: readonly TrueStation[] }) {
  return (
    <table class="plain-table seal-table true-table">
      <caption>{t('trueSweeps')}</caption>
      <thead class="unseen">
        <tr>
          <th scope="col">{t('trueSweep')}</th>
          <th scope="col">{t('value')}</th>
          <th scope="col">{t('trueHighSpot')}</th>
        </tr>
      </thead>
      <tbody>
        {stations.map((station) => (
          <Sweep key={station.check} station={station} />
        ))}
      </tbody>
    </table>
  );
}

function Remedy({ remedy }: { remedy: TrueRemedy }) {
  return (
    <li class={remedy.recommended ? 'true-recommended' : ''}>
      <p>
        {remedy.recommended && <strong>{t('trueDoThis')} </strong>}
        {say(remedy.doing)}
      </p>
      <p class="hint">
        {remedy.predicted
          .map(
            (p) =>
              `${say(p.title)}: ${show(p.tir)} ± ${show(p.doubt)} (${t('trueOf', { limit: show(p.limit) })})`,
          )
          .join('; ')}
      </p>
    </li>
  );
}

function Remedies({ remedies }: { remedies: readonly TrueRemedy[] }) {
  if (remedies.length === 0) return null;
  return (
    <section class="stack">
      <h4>{t('trueRemedies')}</h4>
      <ol class="true-remedies">
        {remedies.map((remedy) => (
          <Remedy key={remedy.doing.en} remedy={remedy} />
        ))}
      </ol>
      {remedies.map((r) => r.recommended && <Tapping key={r.doing.en} remedy={r.done} />)}
      {!remedies.some((r) => r.recommended && r.reaches) && <p>{t('trueNoneReaches')}</p>}
      <p class="hint">{t('trueLockedOut')}</p>
    </section>
  );
}

function Outcome({ after }: { after: TrueChain['after'] }) {
  if (after.length === 0) return null;
  return (
    <section class="stack">
      <h4>{t('trueAfter')}</h4>
      <ul class="remarks">
        {after.map((swept) => (
          <li key={swept.title.en} class={swept.surprise ? 'true-beyond' : ''}>
            {say(swept.title)}: {say(swept.said)}.
          </li>
        ))}
      </ul>
      {after.some((swept) => swept.surprise) && <p>{t('trueSurprise')}</p>}
    </section>
  );
}

/** Of the chain the check belongs to: what turns and what stands are never told together. */
export default function TrueSheet({ view, check }: { view: JobView; check: CheckView }) {
  const asked = useAsked<TrueRunning>(`${jobPath(view.number)}/true-running`, view.seq);
  if (asked.error) return <Notice kind="plain">{errorText(asked.error)}</Notice>;
  if (!asked.answer) return asked.cutOff ? <Notice kind="plain">{t('noAnswer')}</Notice> : <Busy />;
  const standing = check.turning === 'standing';
  const chain = standing ? asked.answer.standing : asked.answer.rotating;
  if (!chain) return null;
  return (
    <section class="seal-sheet" aria-labelledby="true-sheet-title">
      <h3 id="true-sheet-title">{t(standing ? 'trueStanding' : 'trueRotating')}</h3>
      <Found chain={chain} />
      <Outcome after={chain.after} />
      <Todo chain={chain} />
      <Remedies remedies={chain.remedies} />
      {chain.picture && <TruePictureFigure picture={chain.picture} standing={standing} />}
      <Sweeps stations={chain.stations} />
      <ul class="remarks">
        {asked.answer.left_out.map((left) => (
          <li key={left.what.en}>
            {t('trueLeftOut')} {say(left.what)}: {say(left.why)}.
          </li>
        ))}
        {asked.answer.assumed.map((text) => (
          <li key={text.en}>{say(text)}</li>
        ))}
      </ul>
    </section>
  );
}
