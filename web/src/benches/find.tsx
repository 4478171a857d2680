// Finding a job: by what one knows of it, or by its tag with a keyboard scanner or the camera.
import { useEffect, useRef, useState } from 'preact/hooks';
import { CutOff, get, Refused } from '../api/client';
import type { JobFound } from '../api/types';
import { jobNumberOf } from '../calc/scanner';
import { address, go } from '../route';
import { t } from '../text/text';
import { errorText } from '../widgets/form';
import { Camera } from './camera';
import { cameraState } from './camera_state';

const pauseMs = 250;

async function search(text: string, signal?: AbortSignal): Promise<JobFound[]> {
  const query = `/api/search?q=${encodeURIComponent(text)}&limit=20`;
  return (await get<{ jobs: JobFound[] }>(query, signal ? { signal } : {})).jobs;
}

function JobLink({ job }: { job: JobFound }) {
  return (
    <a href={address.job(job.number)}>
      <Words job={job} />
      <em>
        {job.state === 'released' ? t('released') : job.bench ? t('onBench', { bench: job.bench }) : ''}
      </em>
    </a>
  );
}

function OldFound({ job }: { job: JobFound }) {
  return (
    <p class="found-old">
      <Words job={job} />
      <em>{t('oldOne', { when: job.opened.slice(0, 10) })}</em>
    </p>
  );
}

function Words({ job }: { job: JobFound }) {
  return (
    <>
      <strong>{job.number}</strong>
      <span>
        {job.customer} · {job.pump} · {job.serial}
      </span>
    </>
  );
}

export function Find({ known }: { known: readonly JobFound[] }) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<JobFound[] | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [camera, setCamera] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement;
      if (event.key !== '/' || target.matches('input,select,textarea')) return;
      event.preventDefault();
      input.current?.focus();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);
  useEffect(() => {
    setSaid(null);
    if (text.trim() === '') {
      setFound(null);
      return;
    }
    const stop = new AbortController();
    const timer = setTimeout(async () => {
      try {
        setFound(await search(text.trim(), stop.signal));
      } catch (error) {
        if (stop.signal.aborted) return;
        if (error instanceof Refused) setSaid(errorText(error.error));
        else if (error instanceof CutOff) {
          const wanted = text.trim().toLowerCase();
          setFound(
            known.filter((j) =>
              `${j.number} ${j.customer} ${j.pump} ${j.serial}`.toLowerCase().includes(wanted),
            ),
          );
          setSaid(t('searchedHere'));
        } else throw error;
      }
    }, pauseMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [text]);
  // A scanner presses Enter before the list has come, so Enter asks for itself.
  const openFirst = async () => {
    const wanted = jobNumberOf(text);
    if (wanted === '') return;
    const list = await search(wanted).catch(() => found ?? []);
    const jobs = list.filter((j) => !j.old);
    const first = jobs.find((j) => j.number.toLowerCase() === wanted.toLowerCase()) ?? jobs[0];
    if (first) go(address.job(first.number));
    else setSaid(t('nothingFound'));
  };
  const off = cameraState();
  return (
    <search class="find">
      <form
        onSubmit={(e) => {
          e.preventDefault();
          void openFirst();
        }}
      >
        <label for="find-input">{t('findJob')}</label>
        <div class="row">
          <input
            id="find-input"
            ref={input}
            type="search"
            value={text}
            placeholder={t('findHint')}
            autocomplete="off"
            onInput={(e) => setText(e.currentTarget.value)}
          />
          {off === 'offered' ? (
            <button type="button" class="button button-plain" onClick={() => setCamera(true)}>
              {t('scanTag')}
            </button>
          ) : null}
        </div>
      </form>
      {off !== 'offered' && (
        <p class="hint">{off === 'insecure' ? t('cameraInsecure') : t('cameraAbsent')}</p>
      )}
      {said && (
        <p class="hint" role="status">
          {said}
        </p>
      )}
      {found && (
        <ul class="found" aria-label={t('found')}>
          {found.length === 0 && <li class="quiet">{t('nothingFound')}</li>}
          {found.map((j) => (
            <li key={`${j.number}${j.old}`}>{j.old ? <OldFound job={j} /> : <JobLink job={j} />}</li>
          ))}
        </ul>
      )}
      {camera && (
        <Camera
          onClose={() => setCamera(false)}
          onFound={(scanned) => {
            setCamera(false);
            go(address.job(jobNumberOf(scanned)));
          }}
        />
      )}
    </search>
  );
}
