// The seal's service sheet: will this seal live here and is it set right, what decides it, and other conditions at once.
import { useEffect, useState } from 'preact/hooks';
import { jobPath } from '../api/client';
import type { SealMap, SealNumbers, SealSheet, SealVerdict } from '../api/seal_types';
import type { CheckView, JobView, Text } from '../api/types';
import { checkOf } from '../job/job_state';
import { say, show, showLimit } from '../session/preferences';
import '../style/seal.css';
import { useAsked } from '../api/use_asked';
import { type TextKey, t } from '../text/text';
import { announce } from '../widgets/announce';
import { Busy } from '../widgets/busy';
import { errorText, Notice } from '../widgets/form';
import { VerdictIcon, verdictWord } from '../widgets/verdict';
import { FacePicture } from './face_picture';
import { type DrawnMap, isOn, MapPicture } from './map_picture';
import { questionOf, type TriedConditions } from './question';
import { TryForm } from './try_form';

const words: Record<SealVerdict, TextKey> = { pass: 'sealFit', fail: 'sealNotFit', unproven: 'unproven' };

function Word({ label, verdict, word }: { label: string; verdict: SealVerdict; word: string }) {
  return (
    <div class={`verdict-banner verdict-${verdict}`}>
      <VerdictIcon verdict={verdict} />
      <p>
        <strong>{word}</strong>
        <span>{label}</span>
      </p>
    </div>
  );
}

function Words({ sheet }: { sheet: SealSheet }) {
  return (
    <div class="seal-words">
      <Word label={t('sealInService')} verdict={sheet.in_service} word={t(words[sheet.in_service])} />
      <Word label={t('sealAsSet')} verdict={sheet.as_set} word={verdictWord(sheet.as_set)} />
    </div>
  );
}

function Enough({ sheet, onTry }: { sheet: SealSheet; onTry: (suction: string) => void }) {
  const enough = sheet.suction_that_does;
  if (!enough) return null;
  return (
    <div class="settle stack">
      <p>
        <strong>{t('sealSuctionDoes', { value: show(enough) })}</strong>
      </p>
      {sheet.checks.some((c) => c.check === 'vapour-margin' && c.finding.verdict !== 'pass') && (
        <button type="button" class="button button-plain" onClick={() => onTry(show(enough))}>
          {t('sealTryThisSuction')}
        </button>
      )}
    </div>
  );
}

function Row({ check, sheet }: { check: CheckView; sheet: SealSheet }) {
  const finding = sheet.checks.find((c) => c.check === check.id)?.finding;
  if (!finding) return null;
  const limit = check.limits.find((l) => l.decides);
  const value = finding.readings[0]?.value;
  return (
    <tr>
      <th scope="row">
        {say(check.title)}
        {limit && <span class="seal-limit">{showLimit(limit)}</span>}
      </th>
      <td>{value ? show(value) : t('sealNoValue')}</td>
      <td>
        <span class={`verdict-tag verdict-${finding.verdict}`}>
          <VerdictIcon verdict={finding.verdict} />
          <span>{verdictWord(finding.verdict)}</span>
        </span>
      </td>
    </tr>
  );
}

function Table({ title, checks, sheet }: { title: string; checks: readonly CheckView[]; sheet: SealSheet }) {
  if (checks.length === 0) return null;
  return (
    <table class="plain-table seal-table">
      <caption>{title}</caption>
      <thead class="unseen">
        <tr>
          <th scope="col">{t('sealCheck')}</th>
          <th scope="col">{t('value')}</th>
          <th scope="col">{t('sealVerdict')}</th>
        </tr>
      </thead>
      <tbody>
        {checks.map((check) => (
          <Row key={check.id} check={check} sheet={sheet} />
        ))}
      </tbody>
    </table>
  );
}

function figuresOf(n: SealNumbers): [TextKey, string][] {
  const range =
    n.chamber_low && n.chamber_high && show(n.chamber_low) !== show(n.chamber_high)
      ? ` (${show(n.chamber_low)} … ${show(n.chamber_high)})`
      : '';
  const rows: [TextKey, string][] = [
    ['sealChamber', n.chamber ? show(n.chamber) + range : ''],
    [n.judged_at_face ? 'sealHottestFace' : 'sealJudgedLiquid', show(n.judged_at)],
    ['sealVapour', show(n.vapour)],
    ['sealBoiling', show(n.boiling)],
    ['sealSpringForce', show(n.spring_force)],
    ['sealFacePressure', show(n.face_pressure)],
    ['sealBalance', n.balance_ratio === null ? '' : n.balance_ratio.toFixed(3)],
    ['sealMeanFilm', show(n.film)],
    ['sealContact', n.contact_share === null ? '' : `${Math.round(n.contact_share * 100)} %`],
    ['sealFriction', show(n.friction_torque)],
    ['sealHeat', show(n.heat)],
    ['sealLeak', show(n.leakage)],
    ['sealPv', show(n.pv)],
    ['sealCirculation', show(n.circulation)],
    ['sealGrowth', n.growth_low && n.growth_high ? `${show(n.growth_low)} … ${show(n.growth_high)}` : ''],
    ['sealStroke', n.bellows_stroke ? `± ${show(n.bellows_stroke)}` : ''],
    ['sealTrack', show(n.track_width)],
  ];
  return rows.filter(([, value]) => value !== '');
}

function Numbers({ numbers }: { numbers: SealNumbers }) {
  const rows = figuresOf(numbers);
  if (rows.length === 0) return null;
  return (
    <details>
      <summary>{t('sealNumbers')}</summary>
      <dl class="figures">
        {rows.map(([name, value]) => (
          <div key={name}>
            <dt>{t(name)}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

function Texts({ title, texts }: { title: string; texts: readonly Text[] }) {
  if (texts.length === 0) return null;
  return (
    <section class="stack">
      <h4>{title}</h4>
      <ul class="remarks">
        {texts.map((text) => (
          <li key={text.en}>{say(text)}</li>
        ))}
      </ul>
    </section>
  );
}

function checksOfSheet(view: JobView, sheet: SealSheet) {
  const known = (ids: readonly string[]) =>
    ids.map((id) => checkOf(view, id)).filter((c): c is CheckView => c !== undefined);
  const all = known(sheet.checks.map((c) => c.check));
  const decides = known(sheet.decides);
  return { decides, others: all.filter((c) => !decides.includes(c)) };
}

function TriedMark({ onBack }: { onBack: () => void }) {
  return (
    <div class="seal-tried">
      <p>
        <strong>{t('sealTried')}</strong> {t('sealTriedWhat')}
      </p>
      <button type="button" class="button button-main" onClick={onBack}>
        {t('sealBack')}
      </button>
    </div>
  );
}

/**
 * The map around the job's own point, on which temperatures and pressures that are tried have their places. Where the
 * job has none, or what is tried lies beyond its edges, the map around what is tried.
 */
function useMap(path: string, seq: number, sheet: SealSheet | null, tried: TriedConditions): DrawnMap | null {
  const { temperature: _warmer, suction: _higher, ...same } = tried;
  const [here, around] = [questionOf(same), questionOf(tried)];
  const first = useAsked<SealMap>(sheet ? `${path}/seal-map${here}` : null, seq);
  const known = first.answer?.map ?? null;
  const beyond = sheet?.tried && around !== here && first.answer && !(known && isOn(known, sheet.conditions));
  const second = useAsked<SealMap>(beyond ? `${path}/seal-map${around}` : null, seq);
  return (beyond ? second.answer?.map : null) ?? known;
}

export default function SealSheetPart({ view }: { view: JobView }) {
  const [tried, setTried] = useState<TriedConditions>({});
  const path = jobPath(view.number);
  const question = questionOf(tried);
  const own = useAsked<SealSheet>(`${path}/seal`, view.seq);
  const other = useAsked<SealSheet>(question === '' ? null : `${path}/seal${question}`, view.seq);
  const sheet = question === '' ? own.answer : (other.answer ?? own.answer);
  const shown = question === '' ? own : other;
  const settled = sheet !== null && !shown.asking && shown.error === null;
  const map = useMap(path, view.seq, settled ? sheet : null, tried);
  useEffect(() => {
    if (sheet?.tried && settled) announce(`${t('sealTried')} ${t(words[sheet.in_service])}`);
  }, [sheet, settled]);
  if (own.error) return <Notice kind="plain">{errorText(own.error)}</Notice>;
  if (!sheet || !own.answer) return own.cutOff ? <Notice kind="plain">{t('noAnswer')}</Notice> : <Busy />;
  const { decides, others } = checksOfSheet(view, sheet);
  return (
    <section class={`seal-sheet${sheet.tried ? ' seal-is-tried' : ''}`} aria-labelledby="seal-sheet-title">
      <h3 id="seal-sheet-title">{t('sealSheet')}</h3>
      {question !== '' && <TriedMark onBack={() => setTried({})} />}
      {shown.cutOff && <Notice kind="plain">{t('noAnswer')}</Notice>}
      <Words sheet={sheet} />
      <Enough sheet={sheet} onTry={(suction) => setTried({ ...tried, suction })} />
      <Texts title={t('sealMissing')} texts={sheet.missing} />
      <Table title={t('sealDecides')} checks={decides} sheet={sheet} />
      <TryForm own={own.answer.conditions} tried={tried} error={other.error} onTried={setTried} />
      {sheet.face && (
        <section class="stack">
          <h4>{t('sealAlongFace')}</h4>
          <FacePicture face={sheet.face} />
        </section>
      )}
      {map && (
        <section class="stack">
          <h4>{t('sealMap')}</h4>
          <MapPicture map={map} own={own.answer.conditions} tried={sheet.tried ? sheet.conditions : null} />
        </section>
      )}
      <Table title={t('sealOtherChecks')} checks={others} sheet={sheet} />
      <Numbers numbers={sheet.numbers} />
      <Texts title={t('sealAssumed')} texts={sheet.assumed} />
    </section>
  );
}
