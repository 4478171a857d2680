// What was moved since a part was last swept, so that what was foretold of it stands beside what is read now.
import { jobPath } from '../api/client';
import type { TrueRunning } from '../api/true_types';
import type { CheckView, JobView, SweepSetup } from '../api/types';
import { useAsked } from '../api/use_asked';
import { say } from '../session/preferences';
import { t } from '../text/text';
import { Select } from '../widgets/form';

interface Props {
  view: JobView;
  check: CheckView;
  setup: SweepSetup;
  onSetup: (setup: SweepSetup) => void;
}

/** Asked once the check was swept and a remedy was named; nothing to choose from, nothing asked. */
export function RemedyChoice({ view, check, setup, onSetup }: Props) {
  const swept = check.finding.readings.length > 0;
  const asked = useAsked<TrueRunning>(swept ? `${jobPath(view.number)}/true-running` : null, view.seq);
  const chain = check.turning === 'standing' ? asked.answer?.standing : asked.answer?.rotating;
  const remedies = chain?.remedies ?? [];
  if (remedies.length === 0) return null;
  const wordOf = (remedy: SweepSetup['remedy']) => (remedy ? JSON.stringify(remedy) : '');
  const choose = (word: string) => {
    const { remedy: _before, ...rest } = setup;
    const chosen = remedies.find((r) => wordOf(r.done) === word);
    onSetup(chosen ? { ...rest, remedy: chosen.done } : rest);
  };
  return (
    <Select
      label={t('movedSince')}
      value={wordOf(setup.remedy)}
      empty={t('nothingMoved')}
      options={remedies.map((r) => ({ value: wordOf(r.done), label: say(r.doing) }))}
      onValue={choose}
    />
  );
}
