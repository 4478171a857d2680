// A sweep from the first choice to the sent reading: how the indicator sits, the strip, the live picture.
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { CheckView, JobView, ServerError } from '../api/types';
import { numberOf } from '../calc/plain_number';
import {
  anglesOf,
  choose,
  distinctPlaces,
  divide,
  isGap,
  nextPlace,
  put,
  type Strip,
  toggleGap,
} from '../calc/strip';
import { flipSign, isBlank } from '../calc/typed_number';
import { type Degrees, degrees, withinTurn } from '../calc/units';
import type { InputProps } from '../job/inputs';
import { firstChoice, InstrumentPicker, rememberInstrument } from '../job/instrument_picker';
import { placeName } from '../job/polar_picture';
import { keptOf } from '../outbox/outbox';
import { t } from '../text/text';
import { announce } from '../widgets/announce';
import { Busy, WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice } from '../widgets/form';
import {
  type DraftFor,
  dropDraft,
  firstDraft,
  keepDraft,
  lastSetup,
  loadDraft,
  rememberSetup,
  type SweepDraft,
  sweepPayload,
} from './draft';
import { Live, reading } from './live';
import { NumberPad } from './number_pad';
import { RemedyChoice } from './remedy_choice';
import { SerialButton } from './serial_button';
import { SetupForm, setupSummary } from './setup_form';
import { StripView } from './strip_view';
import { useTrying } from './trying';
import { Typing } from './typing';

/** The place a server's error about one point is about. */
function badPlace(error: ServerError | null, strip: Strip): Degrees | null {
  const index = /points\/(\d+)/.exec(error?.field ?? '')?.[1];
  if (index === undefined) return null;
  return strip.points[Number(index)]?.angle ?? null;
}

function FreeAngle({ onAdd }: { onAdd: (angle: Degrees) => void }) {
  const [text, setText] = useState('');
  const angle = numberOf(text);
  const usable = angle !== null && angle >= 0 && angle <= 720;
  return (
    <div class="row">
      <Field label={t('angleFree')} value={text} inputMode="decimal" onValue={setText} />
      <button
        type="button"
        class="button button-plain"
        disabled={!usable}
        onClick={() => {
          if (angle !== null) onAdd(degrees(angle));
          setText('');
        }}
      >
        {t('goToAngle')}
      </button>
    </div>
  );
}

type Props = InputProps & { view: JobView };

const draftFor = ({ view, check, replaces }: Props): DraftFor => ({
  job: view.number,
  check: check.id,
  replaces: replaces?.id ?? null,
});

function useDraft(view: JobView, check: CheckView, props: Props) {
  const what = draftFor(props);
  const [draft, setDraft] = useState<SweepDraft | null>(null);
  const [resumed, setResumed] = useState(false);
  const history = useRef<Strip[]>([]);
  // The newest draft, for keys that arrive before the page is drawn again.
  const latest = useRef<SweepDraft | null>(null);
  const wanted = (instrument: string) => ({ instrument, turning: check.turning, face: check.face });
  const take = (next: SweepDraft) => {
    latest.current = next;
    setDraft(next);
    void keepDraft(what, next);
  };
  useEffect(() => {
    let gone = false;
    void loadDraft(what).then((found) => {
      if (gone) return;
      const instrument = props.replaces?.instrument ?? firstChoice(check, view.instruments);
      const first = found ?? draftOf(props, firstDraft(wanted(instrument)));
      latest.current = first;
      setDraft(first);
      setResumed(found !== undefined && found.strip.points.length > 0);
    });
    return () => {
      gone = true;
    };
  }, [view.number, check.id]);
  const takeStrip = (strip: Strip) => {
    if (!latest.current) return;
    history.current = [...history.current.slice(-199), latest.current.strip];
    take({ ...latest.current, strip });
  };
  const undo = (): boolean => {
    const before = history.current.pop();
    if (before && latest.current) take({ ...latest.current, strip: before });
    return before !== undefined;
  };
  return { draft, latest, resumed, take, takeStrip, undo, wanted };
}

/** A correction starts from the readings it corrects. */
function draftOf(props: Props, first: SweepDraft): SweepDraft {
  const sent = props.replaces?.payload.sweep;
  if (!sent) return first;
  const { points, gaps: _gaps, ...setup } = sent;
  const angles = points.map((p) => p.angle_deg);
  const places = [4, 8, 12, 24].find((n) =>
    angles.every((a) => Math.abs(a / (360 / n) - Math.round(a / (360 / n))) < 1e-9),
  );
  return {
    ...first,
    setup,
    strip: {
      ...first.strip,
      places: places ?? 0,
      turns: angles.some((a) => a > 360) ? 2 : 1,
      points: points.map((p) => ({ angle: degrees(p.angle_deg), reading: p.reading })),
    },
  };
}

export function SweepEntry(props: Props) {
  const { view, check, instruments } = props;
  const { draft, latest, resumed, take, takeStrip, undo, wanted } = useDraft(view, check, props);
  const [text, setText] = useState('');
  const typed = useRef('');
  const tried = useTrying(view.number, check.id, draft);
  const root = useRef<HTMLDivElement>(null);
  const write = (next: string) => {
    typed.current = next;
    setText(next);
  };
  // Before the strip is painted: an indicator's first number must not find the focus nowhere.
  useLayoutEffect(() => {
    if (!draft?.started) return;
    root.current?.querySelector<HTMLElement>('#sweep-typed')?.focus({ preventScroll: true });
    root.current?.querySelector('.typing')?.scrollIntoView({ block: 'start' });
  }, [draft?.started]);
  useEffect(() => {
    reading.value = draft?.started ? { check: check.id, tried, points: distinctPlaces(draft.strip) } : null;
  }, [tried, draft]);
  useEffect(
    () => () => {
      reading.value = null;
    },
    [],
  );
  if (!draft) return <Busy />;
  const instrument = instruments.find((i) => i.id === draft.instrument);
  const error = props.error ?? tried.error;
  const zeroError =
    error && (isAbout(error, 'zero_return') || isAbout(error, 'bar_sag') || isAbout(error, 'radius'))
      ? errorText(error)
      : null;

  const pickInstrument = (id: string) => {
    rememberInstrument(check, id);
    const last = lastSetup(wanted(id));
    take({ ...draft, instrument: id, setup: last ? { ...last.setup } : draft.setup });
  };
  const start = () => {
    rememberSetup(wanted(draft.instrument), draft.setup, draft.strip.places);
    rememberInstrument(check, draft.instrument);
    take({ ...draft, started: true });
  };

  if (!draft.started)
    return (
      <div class="sweep" ref={root}>
        {lastSetup(wanted(draft.instrument)) && <p class="hint">{t('setupRemembered')}</p>}
        <InstrumentPicker
          check={check}
          instruments={instruments}
          value={draft.instrument}
          onValue={pickInstrument}
        />
        {!props.replaces && (
          <RemedyChoice
            view={view}
            check={check}
            setup={draft.setup}
            onSetup={(setup) => take({ ...draft, setup })}
          />
        )}
        <SetupForm
          check={check}
          instrument={instrument}
          draft={draft}
          zeroError={zeroError}
          onDraft={take}
          onPlaces={(n) => take({ ...draft, strip: divide(draft.strip, n) })}
        />
        <WorkButton kind="main" onPress={start}>
          {t('startSweep')}
        </WorkButton>
      </div>
    );

  const next = nextPlace(draft.strip);
  const putReading = (reading: string) => {
    const now = latest.current;
    const at = now ? nextPlace(now.strip) : null;
    if (!now || at === null || isBlank(reading)) return;
    takeStrip(put(now.strip, at, reading.trim()));
    write('');
    announce(`${placeName(withinTurn(at), check.turning)}: ${reading}`);
  };
  const move = (by: 1 | -1) => {
    const now = latest.current;
    if (!now) return;
    const angles = anglesOf(now.strip);
    const at = nextPlace(now.strip) ?? angles[angles.length - 1];
    const to = angles[angles.indexOf(at as Degrees) + by];
    if (to !== undefined) take({ ...now, strip: choose(now.strip, to) });
  };
  const erase = () => {
    if (typed.current !== '') write(typed.current.slice(0, -1));
    else undo();
  };
  const bad = badPlace(error, draft.strip);
  const suspect = tried.judged?.sweep?.suspects[0];
  const here =
    next === null
      ? t('allPlacesRead')
      : t('readingAt', { place: placeName(withinTurn(next), check.turning) });
  const send = async () => {
    if (draft.strip.points.length === 0) return;
    const state = await props.onSend({ instrument: draft.instrument, sweep: sweepPayload(draft) });
    if (state !== 'refused') await dropDraft(draftFor(props));
  };
  const pointError =
    error && bad !== null ? `${placeName(withinTurn(bad), check.turning)}: ${errorText(error)}` : null;
  const keptHere = keptOf(`job/${view.number}`).length;
  return (
    <div class="sweep" ref={root}>
      {resumed && <Notice kind="plain">{t('draftResumed', { count: draft.strip.points.length })}</Notice>}
      <div class="setup-line">
        <span>
          <strong>{draft.instrument}</strong> · {setupSummary(draft.setup)}
        </span>
        <button type="button" class="button button-plain" onClick={() => take({ ...draft, started: false })}>
          {t('changeSetup')}
        </button>
      </div>
      <Typing
        text={text}
        label={here}
        onText={write}
        onEnter={() => putReading(typed.current)}
        onUndo={undo}
        onMove={move}
        error={pointError}
      >
        <StripView
          strip={draft.strip}
          turning={check.turning}
          sweep={tried.judged?.sweep ?? null}
          badAngle={bad}
          onChoose={(angle) => {
            take({ ...draft, strip: choose(draft.strip, angle) });
            write('');
          }}
        />
        {draft.strip.places === 0 && (
          <FreeAngle onAdd={(angle) => take({ ...draft, strip: choose(draft.strip, angle) })} />
        )}
        <div class="sweep-work">
          <NumberPad
            onKey={(key) => write(typed.current + key)}
            onSign={() => write(flipSign(typed.current))}
            onErase={erase}
            onEnter={() => putReading(typed.current)}
            mayGap={draft.strip.places !== 0 && next !== null}
            gapMarked={next !== null && isGap(draft.strip, next)}
            onGap={() => next !== null && takeStrip(toggleGap(draft.strip, next))}
          />
          <div class="live-inline">
            <Live tried={tried} check={check} points={distinctPlaces(draft.strip)} />
          </div>
        </div>
      </Typing>
      {suspect && (
        <button
          type="button"
          class="button button-plain"
          onClick={() => takeStrip(choose(draft.strip, degrees(suspect.angle_deg)))}
        >
          {t('readAgainButton', { place: placeName(suspect.angle_deg, check.turning) })}
        </button>
      )}
      {error && bad === null && <Notice kind="error">{errorText(error)}</Notice>}
      <div class="row row-wide">
        <WorkButton kind="main" onPress={send} disabled={draft.strip.points.length === 0}>
          {t('sendSweep', { count: draft.strip.points.length })}
        </WorkButton>
        <button
          type="button"
          class="button button-plain"
          aria-pressed={draft.strip.turns === 2}
          onClick={() => takeStrip({ ...draft.strip, turns: draft.strip.turns === 2 ? 1 : 2 })}
        >
          {t('secondTurn')}
        </button>
        <button
          type="button"
          class="button button-plain"
          onClick={() => takeStrip({ ...draft.strip, points: [], gaps: [], chosen: null })}
        >
          {t('startOver')}
        </button>
      </div>
      <SerialButton onReading={putReading} />
      <p class="hint">{keptHere > 0 ? t('pointsKeptToo') : t('pointsKept')}</p>
    </div>
  );
}
