// Limits the shop stands behind: common practices it adopts, and its own for a family or a customer.
import { useState } from 'preact/hooks';
import type { ShopView } from '../api/types';
import { newKey } from '../outbox/uuid';
import { say, timeText } from '../session/preferences';
import { mayAnswerFor } from '../session/session';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { Choice, errorText, Field, isAbout } from '../widgets/form';
import { ActResult, useShopAct } from './shop_acts';

function Adoption({ view }: { view: ShopView }) {
  const act = useShopAct();
  return (
    <section class="panel">
      <h2>{t('adoptTitle')}</h2>
      <p>{t('adoptWhat')}</p>
      <ul class="plain-list rows">
        {view.adoptable.map((l) => (
          <li key={l.limit} class="row-item">
            <span>
              <strong>{say(l.title)}</strong>: {say(l.text)}
              <span class="limit-source">{say(l.source)}</span>
            </span>
            {mayAnswerFor.value && (
              <WorkButton onPress={async () => void (await act.run('limit-adopted', { limit: l.limit }))}>
                {t('adopt')}
              </WorkButton>
            )}
          </li>
        ))}
      </ul>
      <ActResult act={act} />
      <details>
        <summary>{t('adoptedAlready', { count: view.adopted.length })}</summary>
        <ul class="plain-list">
          {view.adopted.map((a) => (
            <li key={a.limit}>
              {a.limit}
              <span class="who">
                {a.by} · {timeText(a.time)}
              </span>
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
}

const emptyLimit = { check: '', lower: '', upper: '', rank: 'customer', for: '', document: '', note: '' };

function OwnLimit() {
  const [form, setForm] = useState(emptyLimit);
  const act = useShopAct();
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });
  const about = (field: string) => (act.error && isAbout(act.error, field) ? errorText(act.error) : null);
  const save = async () => {
    const { lower, upper, document, note, ...rest } = form;
    const done = await act.run('limit-set', {
      id: `own-${newKey().slice(0, 13)}`,
      ...rest,
      ...(lower ? { lower } : {}),
      ...(upper ? { upper } : {}),
      source: [document, note]
        .map((text) => text.trim())
        .filter(Boolean)
        .join('; '),
    });
    if (done) setForm(emptyLimit);
  };
  return (
    <form
      class="stack panel"
      onSubmit={(e) => {
        e.preventDefault();
        void save();
      }}
    >
      <h3>{t('addLimit')}</h3>
      <Field
        label={t('checkWord')}
        hint={t('checkWordHint')}
        value={form.check}
        error={about('check')}
        onValue={set('check')}
      />
      <div class="field-row">
        <Field label={t('atLeast')} value={form.lower} error={about('lower')} onValue={set('lower')} />
        <Field label={t('atMost')} value={form.upper} error={about('upper')} onValue={set('upper')} />
      </div>
      <Choice
        label={t('holdsFor')}
        value={form.rank}
        options={[
          { value: 'customer', label: t('customer') },
          { value: 'family', label: t('pumpFamily') },
        ]}
        onValue={set('rank')}
      />
      <Field label={t('forWhich')} value={form.for} error={about('for')} onValue={set('for')} />
      <Field
        label={t('sourceDocument')}
        value={form.document}
        error={about('document')}
        onValue={set('document')}
      />
      <Field label={t('noteOptional')} value={form.note} onValue={set('note')} />
      <ActResult act={act} />
      <WorkButton kind="main" submit onPress={save}>
        {t('save')}
      </WorkButton>
    </form>
  );
}

export function Limits({ view }: { view: ShopView }) {
  const act = useShopAct();
  return (
    <>
      <Adoption view={view} />
      <section class="panel">
        <h2>{t('ownLimits')}</h2>
        {view.limits.length === 0 && <p class="quiet">{t('noOwnLimits')}</p>}
        <ul class="plain-list rows">
          {view.limits.map((l) => (
            <li key={l.id} class="row-item">
              <span>
                <strong>{l.check}</strong>{' '}
                {[l.lower && `${t('atLeast')} ${l.lower}`, l.upper && `${t('atMost')} ${l.upper}`]
                  .filter(Boolean)
                  .join(', ')}
                <span class="limit-source">
                  {l.rank === 'family' ? t('pumpFamily') : t('customer')}: {l.for} · {l.source}
                </span>
              </span>
              {mayAnswerFor.value && (
                <WorkButton
                  kind="danger"
                  onPress={async () => void (await act.run('limit-cleared', { id: l.id }))}
                >
                  {t('clear')}
                </WorkButton>
              )}
            </li>
          ))}
        </ul>
        <ActResult act={act} />
      </section>
      {mayAnswerFor.value && <OwnLimit />}
    </>
  );
}
