// What comes back: how often, early or late, whether groups differ, whether a change helped, and which reading at the
// build goes with it. Pumps are compared here, never people.
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Counted, ReturnsAnswer, ReturnsChoices, ReturnsFound } from '../api/returns_types';
import { useAsked } from '../api/use_asked';
import { address } from '../route';
import { say, units } from '../session/preferences';
import { Banner, Header } from '../shell';
import '../style/returns.css';
import { type TextKey, t } from '../text/text';
import { Busy } from '../widgets/busy';
import { Choice, errorText, Field, Notice, Select } from '../widgets/form';
import { VerdictTag } from '../widgets/verdict';
import { type Compare, nothingAsked, type ReturnsQuestion, returnsPath } from './asked_returns';
import { StillOutCurve } from './still_out_curve';

const compares: [Compare, TextKey][] = [
  ['', 'returnsCompareNothing'],
  ['pump', 'returnsByPump'],
  ['customer', 'returnsByCustomer'],
  ['seal', 'returnsBySeal'],
  ['changed', 'returnsByChange'],
];

const groupName = (name: string): string => {
  if (name === 'before') return t('returnsBefore');
  if (name === 'after') return t('returnsAfter');
  return name === '' ? t('returnsOthers') : name;
};

function Only({
  label,
  list,
  value,
  onValue,
}: {
  label: string;
  list: readonly Counted[];
  value: string;
  onValue: (value: string) => void;
}) {
  return (
    <Select
      label={label}
      value={value}
      empty={t('returnsAll')}
      options={list.map((c) => ({ value: c.value, label: `${c.value} (${c.builds})` }))}
      onValue={onValue}
    />
  );
}

function Question({
  asked,
  choices,
  onAsked,
}: {
  asked: ReturnsQuestion;
  choices: ReturnsChoices;
  onAsked: (asked: ReturnsQuestion) => void;
}) {
  const set = (name: keyof ReturnsQuestion) => (value: string) => onAsked({ ...asked, [name]: value });
  const flip = (check: string) =>
    onAsked({
      ...asked,
      readings: asked.readings.includes(check)
        ? asked.readings.filter((c) => c !== check)
        : [...asked.readings, check],
    });
  return (
    <form class="panel" onSubmit={(e) => e.preventDefault()}>
      <div class="field-row">
        <Only label={t('pumpFamily')} list={choices.pump} value={asked.pump} onValue={set('pump')} />
        <Only
          label={t('customer')}
          list={choices.customer}
          value={asked.customer}
          onValue={set('customer')}
        />
        <Only label={t('returnsSeal')} list={choices.seal} value={asked.seal} onValue={set('seal')} />
      </div>
      <Choice
        label={t('returnsCompare')}
        value={asked.compare}
        options={compares.map(([value, key]) => ({ value, label: t(key) }))}
        onValue={set('compare')}
      />
      {asked.compare === 'changed' && (
        <Field
          label={t('returnsChangedOn')}
          hint={t('returnsChangedHint')}
          type="date"
          value={asked.changed}
          onValue={set('changed')}
        />
      )}
      <fieldset class="choice">
        <legend>{t('returnsReadings')}</legend>
        <div class="choice-row">
          {choices.reading.map((r) => (
            <label key={r.check} class={`choice-card${asked.readings.includes(r.check) ? ' chosen' : ''}`}>
              <input
                type="checkbox"
                checked={asked.readings.includes(r.check)}
                onChange={() => flip(r.check)}
              />
              <span class="choice-word">{say(r.title)}</span>
            </label>
          ))}
        </div>
      </fieldset>
    </form>
  );
}

function Change({ found }: { found: ReturnsFound }) {
  if (!found.change) return null;
  const { verdict, said, ratio, settling, besides } = found.change;
  return (
    <section class="panel">
      <h2>{t('returnsDidItHelp')}</h2>
      <p class="returns-verdict">
        <VerdictTag verdict={verdict} /> <strong>{say(said)}</strong>
      </p>
      <p>{say(ratio)}</p>
      {settling && <p>{say(settling)}</p>}
      <p class="hint">{say(besides)}</p>
    </section>
  );
}

/** A table that may be wider than a phone: it scrolls by itself, by keyboard too. */
function WideTable({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    <section class="wide-table" tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}

function StillOut({ found }: { found: ReturnsFound }) {
  return (
    <section class="panel">
      <h2>{t('returnsStillOut')}</h2>
      <p class="hint">{t('returnsStillOutHint')}</p>
      <StillOutCurve curves={found.curves} nameOf={groupName} />
      {found.curves.length > 1 && <p>{t('returnsAllTogether')}</p>}
      <WideTable label={t('returnsStillOut')}>
        <table class="plain-table">
          <caption class="unseen">{t('returnsStillOut')}</caption>
          <thead>
            <tr>
              <th scope="col">{t('returnsAfterTime')}</th>
              <th scope="col">{t('returnsStillOutShort')}</th>
              <th scope="col">{say(found.sure)}</th>
              <th scope="col">{t('returnsLasted')}</th>
            </tr>
          </thead>
          <tbody>
            {found.still_out.map((row) => (
              <tr key={row.after.en}>
                <th scope="row">{say(row.after)}</th>
                <td>{row.part}</td>
                <td>{row.low && row.high ? `${row.low} … ${row.high}` : '–'}</td>
                <td>{row.lasted}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
      {found.shares && <p>{say(found.shares)}</p>}
    </section>
  );
}

function Shape({ found }: { found: ReturnsFound }) {
  if (!found.shape) return null;
  return (
    <section class="panel">
      <h2>{t('returnsEarlyOrLate')}</h2>
      <p>
        <strong>{say(found.shape)}</strong>
      </p>
      <dl class="out-figures">
        {found.shape_figures.map((f) => (
          <div key={f.title.en}>
            <dt>{say(f.title)}</dt>
            <dd>
              <strong>{say(f.value)}</strong> <span class="who">{say(f.range)}</span>
            </dd>
          </div>
        ))}
      </dl>
      {found.drawn_on && <p class="hint">{say(found.drawn_on)}</p>}
    </section>
  );
}

function Groups({ found }: { found: ReturnsFound }) {
  if (!found.groups) return null;
  return (
    <section class="panel">
      <h2>{t('returnsGroups')}</h2>
      <p>
        <strong>{say(found.groups.differ)}</strong>
      </p>
      {found.groups.curves && <p class="hint">{say(found.groups.curves)}</p>}
      <WideTable label={t('returnsGroups')}>
        <table class="plain-table">
          <caption class="unseen">{t('returnsGroups')}</caption>
          <thead>
            <tr>
              <th scope="col">{t('returnsGroup')}</th>
              <th scope="col">{t('returnsWentOut')}</th>
              <th scope="col">{t('returnsCameBack')}</th>
              <th scope="col">{t('returnsIfAlike')}</th>
              <th scope="col">{t('returnsEvery')}</th>
            </tr>
          </thead>
          <tbody>
            {found.groups.list.map((g) => (
              <tr key={g.name}>
                <th scope="row">{groupName(g.name)}</th>
                <td>{g.builds}</td>
                <td>{g.returned}</td>
                <td>{g.expected}</td>
                <td>{say(g.every)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
    </section>
  );
}

function Readings({ found }: { found: ReturnsFound }) {
  if (!found.readings) return null;
  const { readings, choices } = found;
  const titleOf = (check: string) => {
    const title = choices.reading.find((r) => r.check === check)?.title;
    return title ? say(title) : check;
  };
  return (
    <section class="panel">
      <h2>{t('returnsReadingsFound')}</h2>
      <p class="hint">
        {t('returnsReadingsOf', { count: readings.builds })}
        {readings.left_out > 0 && ` ${t('returnsLeftOut', { count: readings.left_out })}`}
      </p>
      <WideTable label={t('returnsReadingsFound')}>
        <table class="plain-table">
          <caption class="unseen">{t('returnsReadingsFound')}</caption>
          <thead>
            <tr>
              <th scope="col">
                {t('returnsOneMore', { step: units.value === 'inch' ? '1 thou' : '0.01 mm' })}
              </th>
              <th scope="col">{t('returnsGoesWith')}</th>
              <th scope="col">{t('returnsTimes')}</th>
              <th scope="col">{t('returnsAllAges')}</th>
            </tr>
          </thead>
          <tbody>
            {readings.list.map((r) => (
              <tr key={r.check}>
                <th scope="row">{titleOf(r.check)}</th>
                <td>{r.proven ? <strong>{say(r.goes_with)}</strong> : say(r.goes_with)}</td>
                <td>{r.times[units.value]}</td>
                <td>{say(r.at_all_ages)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
      <p>{say(readings.together)}</p>
      {readings.few && <p>{say(readings.few)}</p>}
      <p class="hint">{say(readings.not_a_cause)}</p>
    </section>
  );
}

function Found({ found }: { found: ReturnsFound }) {
  return (
    <div class="returns-found">
      <section class="panel returns-first">
        <p class="returns-counts">
          {t('returnsCounts', {
            builds: found.builds,
            returned: found.returned,
            running: found.running,
            replaced: found.replaced,
          })}
        </p>
        {found.reason_not_said > 0 && (
          <Notice kind="plain">{t('returnsNotSaid', { count: found.reason_not_said })}</Notice>
        )}
        <p>{say(found.rate)}</p>
        {found.trend && <p>{say(found.trend)}</p>}
      </section>
      <Change found={found} />
      <StillOut found={found} />
      <Shape found={found} />
      <Groups found={found} />
      <Readings found={found} />
      {found.not_computed.length > 0 && (
        <section class="panel">
          <h2>{t('returnsNotComputed')}</h2>
          <ul class="plain-list">
            {found.not_computed.map((n) => (
              <li key={n.what.en}>
                {say(n.what)}: {say(n.why)}
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

const isFound = (answer: ReturnsAnswer): answer is ReturnsFound => answer.builds > 0;

export function ReturnsPage() {
  const [question, setQuestion] = useState(nothingAsked);
  const asked = useAsked<ReturnsAnswer>(returnsPath(question), 0);
  const { answer } = asked;
  return (
    <>
      <Header title={t('returnsTitle')} />
      <Banner />
      <main id="main" class="returns">
        <h1>{t('returnsTitle')}</h1>
        <p class="hint">{t('returnsWhat')}</p>
        {answer && <Question asked={question} choices={answer.choices} onAsked={setQuestion} />}
        {asked.error && <Notice kind="error">{errorText(asked.error)}</Notice>}
        {asked.cutOff && <Notice kind="plain">{t('noAnswer')}</Notice>}
        {asked.asking && <Busy />}
        {answer && !isFound(answer) && <Notice kind="plain">{t('returnsNone')}</Notice>}
        {answer && isFound(answer) && <Found found={answer} />}
        <p>
          <a class="button button-plain" href="/api/lives.csv" download="lives.csv">
            {t('livesCsv')}
          </a>{' '}
          <a class="button button-plain" href={address.shop('old')}>
            {t('oldRecords')}
          </a>
        </p>
        <p class="hint">{t('livesHint')}</p>
      </main>
    </>
  );
}
