// The first start of a shop: the code printed where the server runs makes the first lead hand.
import { useState } from 'preact/hooks';
import { CutOff, Refused } from '../api/client';
import type { ServerError } from '../api/types';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice } from '../widgets/form';
import { makeFirstPerson } from './session';

export function FirstStart() {
  const [form, setForm] = useState({ code: '', id: '', name: '', password: '' });
  const [error, setError] = useState<ServerError | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });
  const about = (field: string) => (error && isAbout(error, field) ? errorText(error) : null);
  const submit = async () => {
    setError(null);
    setSaid(null);
    if (Object.values(form).some((v) => v.trim() === '')) {
      setSaid(t('fillAll'));
      return;
    }
    try {
      await makeFirstPerson({ ...form, initials: form.id });
    } catch (e) {
      if (e instanceof Refused) setError(e.error);
      else if (e instanceof CutOff) setSaid(t('noAnswer'));
      else throw e;
    }
  };
  const placed = ['code', 'id', 'name', 'password'].some((f) => isAbout(error, f));
  return (
    <main class="narrow" id="main">
      <h1>{t('firstStart')}</h1>
      <p>{t('firstStartWhat')}</p>
      <form
        class="stack"
        onSubmit={(e) => {
          e.preventDefault();
          void submit();
        }}
      >
        <Field label={t('oneTimeCode')} value={form.code} onValue={set('code')} error={about('code')} />
        <Field
          label={t('initialsAsSigned')}
          value={form.id}
          onValue={set('id')}
          error={about('id') ?? about('initials')}
          autoComplete="username"
        />
        <Field label={t('personName')} value={form.name} onValue={set('name')} error={about('name')} />
        <Field
          label={t('password')}
          hint={t('passwordHint')}
          type="password"
          value={form.password}
          onValue={set('password')}
          error={about('password')}
          autoComplete="new-password"
        />
        {error && !placed && <Notice kind="error">{errorText(error)}</Notice>}
        {said && <Notice kind="error">{said}</Notice>}
        <WorkButton kind="main" submit onPress={submit}>
          {t('startShop')}
        </WorkButton>
      </form>
    </main>
  );
}
