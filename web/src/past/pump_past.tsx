// What the shop remembers of this pump: earlier builds, what came of them, what was said to change, and readings that move
// from build to build.
import { useState } from 'preact/hooks';
import { jobPath } from '../api/client';
import type { PastBuild, PastReading, PumpPast } from '../api/past_types';
import type { JobView } from '../api/types';
import { useAsked } from '../api/use_asked';
import { address } from '../route';
import { say, show, timeText } from '../session/preferences';
import '../style/past.css';
import { t } from '../text/text';

function Build({ build }: { build: PastBuild }) {
  return (
    <li class="past-build">
      <p>
        {build.old ? <strong>{build.number}</strong> : <a href={address.job(build.number)}>{build.number}</a>}{' '}
        <span class="who">
          {timeText(build.opened)} · {t(build.released ? 'pastReleased' : 'pastNotReleased')}
        </span>
      </p>
      {build.reason && <p>{build.reason}</p>}
      {build.hours_run && (
        <p class="quiet">
          {t('pastRan')} {build.hours_run}
        </p>
      )}
      {build.cause && (
        <p>
          <strong>{say(build.cause.headline)}.</strong>
        </p>
      )}
      {build.cause?.change.map((text) => (
        <p key={text.en}>
          {t('pastPromised')} {say(text)}
        </p>
      ))}
      {build.old?.found && (
        <p>
          {t('oldFound')}: {build.old.found}
        </p>
      )}
      {build.old?.changed && (
        <p>
          {t('oldChanged')}: {build.old.changed}
        </p>
      )}
      {build.old && <p class="who">{t('oldFrom', { file: build.old.file, line: build.old.line })}</p>}
      {build.deviations.map((d) => (
        <p key={d.check.en}>
          {t('deviationAccepted')} {say(d.check)}: {d.reason} <span class="who">{d.actor}</span>
        </p>
      ))}
    </li>
  );
}

function Readings({ number, readings }: { number: string; readings: readonly PastReading[] }) {
  if (readings.length === 0) return null;
  return (
    <table class="plain-table past-table">
      <caption>{t('pastReadings')}</caption>
      <tbody>
        {readings.map((r) => (
          <tr key={r.check}>
            <th scope="row">
              <a href={address.check(number, r.step, r.check)}>{say(r.title)}</a>
              {r.moves && (
                <strong class="past-moves"> {t(r.moves === 'grows' ? 'pastGrows' : 'pastShrinks')}</strong>
              )}
            </th>
            <td>
              {r.values.map((v, i) => (
                <span key={v.number} class="past-value">
                  {i > 0 && <span aria-hidden="true">→ </span>}
                  <span class="unseen">{v.number}: </span>
                  {show(v.value)}
                  {v.number === number && <small> {t('pastNow')}</small>}
                </span>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

export default function PumpPastPanel({ view }: { view: JobView }) {
  const [open, setOpen] = useState(false);
  const asked = useAsked<PumpPast>(`${jobPath(view.number)}/past`, open ? view.seq : 0);
  if (!asked.answer || asked.answer.builds.length === 0) return null;
  const { builds, readings } = asked.answer;
  const moving = readings.filter((r) => r.moves !== null).length;
  return (
    <details class="past" onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>
        <strong>{t('pastTitle', { count: builds.length })}</strong>
        {moving > 0 && <span> {t('pastMoving', { count: moving })}</span>}
      </summary>
      <ul class="plain-list">
        {builds.map((build) => (
          <Build key={build.number} build={build} />
        ))}
      </ul>
      <Readings number={view.number} readings={readings} />
    </details>
  );
}
