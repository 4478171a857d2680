// How the indicator sits, asked before the first reading as a few big choices. What was chosen last with this indicator
// is chosen again, and stays in sight.
import type { CheckView, InstrumentView, SweepSetup } from '../api/types';
import { placeCounts } from '../calc/strip';
import { show } from '../session/preferences';
import { t } from '../text/text';
import { Choice, Field, Select } from '../widgets/form';
import type { SweepDraft } from './draft';
import {
  Inside,
  MountHousing,
  MountShaft,
  Outside,
  PlungerMinus,
  PlungerPlus,
  TowardDriver,
  TowardImpeller,
} from './pictures';

type Angles = 'place' | 'shaft' | 'indicator';

const anglesOf = (setup: SweepSetup): Angles => setup.turned?.moved ?? 'place';

export function setupSummary(setup: SweepSetup): string {
  const bases = baseWords();
  return [
    setup.mount === 'housing' ? t('mountHousing') : t('mountShaft'),
    setup.base ? bases[setup.base] : '',
    `${t('plungerIn')} ${setup.plunger_in === 'minus' ? t('plungerMinus') : t('plungerPlus')}`,
    setup.surface
      ? `${t('surface')} ${setup.surface === 'inside' ? t('surfaceInside') : t('surfaceOutside')}`
      : '',
    setup.held_toward ? t(setup.held_toward === 'driver' ? 'heldDriver' : 'heldImpeller') : '',
    `${t('anglesAre')} ${setup.turned ? t(setup.turned.moved === 'shaft' ? 'anglesShaft' : 'anglesIndicator') : t('anglesPlace')}`,
    setup.zero_return ? t('zeroReturned', { value: setup.zero_return }) : t('zeroNotNoted'),
  ]
    .filter(Boolean)
    .join(' · ');
}

const baseWords = (): Record<NonNullable<SweepSetup['base']>, string> => ({
  'motor-face': t('baseMotorFace'),
  'rigid-frame': t('baseRigidFrame'),
  shaft: t('baseShaft'),
  bench: t('baseBench'),
  'resilient-foot': t('baseResilientFoot'),
  'non-magnetic': t('baseNonMagnetic'),
});

function AngleChoice({ setup, onSetup }: { setup: SweepSetup; onSetup: (s: SweepSetup) => void }) {
  const angles = anglesOf(setup);
  const choose = (value: string) => {
    const { turned: _before, ...rest } = setup;
    if (value === 'place') onSetup(rest);
    else
      onSetup({ ...rest, turned: { moved: value === 'shaft' ? 'shaft' : 'indicator', in_rotation: true } });
  };
  return (
    <>
      <Choice
        label={t('anglesAre')}
        value={angles}
        options={[
          { value: 'place', label: t('anglesPlace') },
          { value: 'shaft', label: t('anglesShaft') },
          { value: 'indicator', label: t('anglesIndicator') },
        ]}
        onValue={choose}
      />
      {setup.turned && (
        <Choice
          label={t('turnedWhich')}
          value={setup.turned.in_rotation ? 'with' : 'against'}
          options={[
            { value: 'with', label: t('withRotation') },
            { value: 'against', label: t('againstRotation') },
          ]}
          onValue={(v) => onSetup({ ...setup, turned: { ...setup.turned!, in_rotation: v === 'with' } })}
        />
      )}
    </>
  );
}

function FaceChoice({
  check,
  setup,
  onSetup,
}: {
  check: CheckView;
  setup: SweepSetup;
  onSetup: (s: SweepSetup) => void;
}) {
  return (
    <>
      <Choice
        label={t('heldToward')}
        value={setup.held_toward ?? ''}
        options={[
          { value: 'driver', label: t('heldDriver'), picture: <TowardDriver /> },
          { value: 'impeller', label: t('heldImpeller'), picture: <TowardImpeller /> },
        ]}
        onValue={(v) => onSetup({ ...setup, held_toward: v === 'driver' ? 'driver' : 'impeller' })}
      />
      <Field
        label={t('sweepRadius')}
        hint={check.radius ? t('radiusKnown', { radius: show(check.radius) }) : t('radiusHint')}
        value={setup.radius ?? ''}
        onValue={(radius) => onSetup({ ...setup, radius })}
      />
    </>
  );
}

export function SetupForm(props: {
  check: CheckView;
  instrument: InstrumentView | undefined;
  draft: SweepDraft;
  zeroError: string | null;
  onDraft: (draft: SweepDraft) => void;
  onPlaces: (places: number) => void;
}) {
  const { check, draft, instrument } = props;
  const { setup } = draft;
  const onSetup = (next: SweepSetup) => props.onDraft({ ...draft, setup: next });
  const words = baseWords();
  return (
    <div class="setup">
      <Choice
        label={t('howItSits')}
        value={setup.mount ?? ''}
        options={[
          { value: 'shaft', label: t('mountShaft'), hint: t('mountShaftHint'), picture: <MountShaft /> },
          {
            value: 'housing',
            label: t('mountHousing'),
            hint: t('mountHousingHint'),
            picture: <MountHousing />,
          },
        ]}
        onValue={(v) => onSetup({ ...setup, mount: v === 'housing' ? 'housing' : 'shaft' })}
      />
      <Select
        label={t('baseOn')}
        value={setup.base ?? ''}
        options={Object.entries(words).map(([value, label]) => ({ value, label }))}
        onValue={(v) => onSetup({ ...setup, base: v as NonNullable<SweepSetup['base']> })}
      />
      <Choice
        label={t('plungerIn')}
        value={setup.plunger_in ?? ''}
        options={[
          { value: 'plus', label: t('plungerPlus'), picture: <PlungerPlus /> },
          { value: 'minus', label: t('plungerMinus'), picture: <PlungerMinus /> },
        ]}
        onValue={(v) => onSetup({ ...setup, plunger_in: v === 'minus' ? 'minus' : 'plus' })}
      />
      {!check.face && (
        <Choice
          label={t('surface')}
          value={setup.surface ?? ''}
          options={[
            { value: 'outside', label: t('surfaceOutside'), picture: <Outside /> },
            { value: 'inside', label: t('surfaceInside'), picture: <Inside /> },
          ]}
          onValue={(v) => onSetup({ ...setup, surface: v === 'inside' ? 'inside' : 'outside' })}
        />
      )}
      {check.face && <FaceChoice check={check} setup={setup} onSetup={onSetup} />}
      <AngleChoice setup={setup} onSetup={onSetup} />
      <Choice
        label={t('howManyPlaces')}
        value={String(draft.strip.places)}
        options={[
          ...placeCounts.map((n) => ({ value: String(n), label: String(n) })),
          { value: '0', label: t('freeAngles') },
        ]}
        onValue={(v) => props.onPlaces(Number(v))}
      />
      <Field
        big
        label={t('zeroReturn')}
        hint={t('zeroReturnHint', { unit: instrument?.unit ?? '' })}
        inputMode="decimal"
        value={setup.zero_return ?? ''}
        error={props.zeroError}
        onValue={(zero_return) => onSetup({ ...setup, zero_return })}
      />
      {setup.mount === 'housing' && (
        <Field
          label={t('barSag')}
          hint={t('barSagHint')}
          value={setup.bar_sag ?? ''}
          onValue={(bar_sag) => onSetup({ ...setup, bar_sag })}
        />
      )}
    </div>
  );
}
