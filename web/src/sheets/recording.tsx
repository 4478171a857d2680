// A recording of the running pump: kept with the job, looked at by the server, and its overall velocity put among what the
// meters read.
import { useId, useState } from 'preact/hooks';
import { CutOff, get, jobPath, post, Refused } from '../api/client';
import type { SheetPicture } from '../api/sheet_types';
import type { ServerError, Text } from '../api/types';
import { addKeptFile } from '../job/bench_acts';
import { recall, remember } from '../session/remembered';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice, Select } from '../widgets/form';
import { SheetFigures } from './sheet_proof';

interface Spectrum {
  velocity: string;
  lines: { name: Text; value: Text }[];
  picture: SheetPicture;
}

const units = ['g', 'm/s2', 'mm/s', 'in/s'];

interface Asked {
  place: string;
  unit: string;
  fullScale: string;
  channel: string;
}

async function keptAs(job: string, bytes: Blob): Promise<string> {
  const wav = new Blob([bytes], { type: 'audio/wav' });
  return (await post<{ hash: string }>(`${jobPath(job)}/attachments`, undefined, { bytes: wav })).hash;
}

const spectrumOf = (job: string, recording: string, asked: Asked): Promise<Spectrum> => {
  const query = new URLSearchParams({
    recording,
    place: asked.place,
    unit: asked.unit,
    full_scale: asked.fullScale,
    channel: asked.channel,
  });
  return get<Spectrum>(`${jobPath(job)}/spectrum?${query}`);
};

export function Recording({
  job,
  step,
  check,
  onVelocity,
}: {
  job: string;
  step: string;
  check: string;
  onVelocity: (place: string, velocity: string) => void;
}) {
  const id = useId();
  const [file, setFile] = useState<File | null>(null);
  // Of this file: what the server calls it, and whether the job has it.
  const [kept, setKept] = useState<string | null>(null);
  const [joined, setJoined] = useState(false);
  const choose = (next: File | null) => {
    setFile(next);
    setKept(null);
    setJoined(false);
  };
  const [asked, setAsked] = useState<Asked>({
    place: '',
    unit: recall('recording-unit') ?? 'g',
    fullScale: recall('recording-full-scale') ?? '',
    channel: '1',
  });
  const [spectrum, setSpectrum] = useState<Spectrum | null>(null);
  const [error, setError] = useState<ServerError | null>(null);
  const [cut, setCut] = useState(false);
  const change = (more: Partial<Asked>) => setAsked({ ...asked, ...more });
  const about = (field: string) => (error && isAbout(error, field) ? errorText(error) : null);
  const look = async () => {
    if (!file) return;
    setError(null);
    setCut(false);
    try {
      const hash = kept ?? (await keptAs(job, file));
      setKept(hash);
      setSpectrum(await spectrumOf(job, hash, asked));
      remember('recording-unit', asked.unit);
      remember('recording-full-scale', asked.fullScale);
      if (!joined) await addKeptFile(job, { hash, media_type: 'audio/wav', name: file.name, step, check });
      setJoined(true);
    } catch (e) {
      if (e instanceof Refused) setError(e.error);
      else if (e instanceof CutOff) setCut(true);
      else throw e;
    }
  };
  return (
    <details>
      <summary>{t('recording')}</summary>
      <div class="stack">
        <div class="field">
          <label for={id}>{t('recordingFile')}</label>
          <input
            id={id}
            type="file"
            accept=".wav,audio/wav"
            onChange={(e) => choose(e.currentTarget.files?.[0] ?? null)}
          />
        </div>
        <Field label={t('recordingPlace')} value={asked.place} onValue={(place) => change({ place })} />
        <Select
          label={t('recordingUnit')}
          value={asked.unit}
          options={units.map((u) => ({ value: u, label: u.replace('s2', 's²') }))}
          error={about('unit')}
          onValue={(unit) => change({ unit })}
        />
        <Field
          label={t('recordingFullScale')}
          hint={t('suchAs', { example: '50' })}
          value={asked.fullScale}
          error={about('full_scale')}
          onValue={(fullScale) => change({ fullScale })}
        />
        <Field
          label={t('recordingChannel')}
          value={asked.channel}
          error={about('channel')}
          onValue={(channel) => change({ channel })}
        />
        {error && !['unit', 'full_scale', 'channel'].some((f) => isAbout(error, f)) && (
          <Notice kind="error">{errorText(error)}</Notice>
        )}
        {cut && <Notice kind="plain">{t('recordingCutOff')}</Notice>}
        <WorkButton kind="plain" onPress={look}>
          {t('recordingLook')}
        </WorkButton>
        {spectrum && (
          <>
            <SheetFigures judged={spectrum} />
            <button type="button" class="button" onClick={() => onVelocity(asked.place, spectrum.velocity)}>
              {t('recordingTake', { velocity: spectrum.velocity })}
            </button>
          </>
        )}
      </div>
    </details>
  );
}
