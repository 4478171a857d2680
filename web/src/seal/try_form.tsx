// Other conditions, tried at once and kept nowhere.
import type { SealConditions } from '../api/seal_types';
import type { ServerError } from '../api/types';
import { show } from '../session/preferences';
import { type TextKey, t } from '../text/text';
import { errorText, Field, isAbout } from '../widgets/form';
import { type Condition, conditions, type TriedConditions } from './question';

const labels: Record<Condition, TextKey> = {
  temperature: 'temperature',
  suction: 'suctionPressure',
  head: 'headPressure',
  speed: 'speed',
  length: 'sealLength',
  altitude: 'sealAltitude',
};

export function TryForm({
  own,
  tried,
  error,
  onTried,
}: {
  own: SealConditions;
  tried: TriedConditions;
  error: ServerError | null;
  onTried: (tried: TriedConditions) => void;
}) {
  return (
    <section class="stack" aria-labelledby="seal-try">
      <h4 id="seal-try">{t('sealTry')}</h4>
      <p class="hint">{t('sealTryHint')}</p>
      <div class="field-row">
        {conditions.map((name) => (
          <Field
            key={name}
            label={t(labels[name])}
            hint={own[name] ? t('sealOwnIs', { value: show(own[name]) }) : t('sealOwnMissing')}
            value={tried[name] ?? ''}
            error={error && isAbout(error, name) ? errorText(error) : null}
            onValue={(value) => onTried({ ...tried, [name]: value })}
          />
        ))}
      </div>
    </section>
  );
}
