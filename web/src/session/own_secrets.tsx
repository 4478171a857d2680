// One's own password, and one's own PIN for this enrolled tablet.
import { useState } from 'preact/hooks';
import { CutOff, post, Refused } from '../api/client';
import type { ServerError } from '../api/types';
import { Banner, Header } from '../shell';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice } from '../widgets/form';
import { session } from './session';

function SecretForm(props: {
  title: string;
  path: string;
  name: 'pin' | 'new_password';
  label: string;
  hint: string;
}) {
  const [password, setPassword] = useState('');
  const [next, setNext] = useState('');
  const [error, setError] = useState<ServerError | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const submit = async () => {
    setError(null);
    setSaid(null);
    if (password === '' || next === '') {
      setSaid(t('fillAll'));
      return;
    }
    try {
      await post(props.path, { password, [props.name]: next });
      setPassword('');
      setNext('');
      setSaid(t('saved'));
    } catch (e) {
      if (e instanceof Refused) setError(e.error);
      else if (e instanceof CutOff) setSaid(t('noAnswer'));
      else throw e;
    }
  };
  const about = (field: string) => (isAbout(error, field) && error ? errorText(error) : null);
  return (
    <form
      class="stack panel"
      onSubmit={(e) => {
        e.preventDefault();
        void submit();
      }}
    >
      <h2>{props.title}</h2>
      <Field
        label={t('passwordNow')}
        type="password"
        autoComplete="current-password"
        value={password}
        onValue={setPassword}
        error={about('password')}
      />
      <Field
        label={props.label}
        hint={props.hint}
        type="password"
        autoComplete="new-password"
        {...(props.name === 'pin' ? { inputMode: 'numeric' as const } : {})}
        value={next}
        onValue={setNext}
        error={about(props.name)}
      />
      {error && !about('password') && !about(props.name) && <Notice kind="error">{errorText(error)}</Notice>}
      {said && <p role="status">{said}</p>}
      <WorkButton kind="main" submit onPress={submit}>
        {t('save')}
      </WorkButton>
    </form>
  );
}

export function OwnSecrets() {
  return (
    <>
      <Header title={t('myPassword')} />
      <Banner />
      <main id="main" class="narrow">
        <h1>{t('myPassword')}</h1>
        <SecretForm
          title={t('changePassword')}
          path="/api/session/password"
          name="new_password"
          label={t('passwordNew')}
          hint={t('passwordHint')}
        />
        {session.value?.device ? (
          <SecretForm
            title={t('pinHere', { device: session.value.device.name })}
            path="/api/session/pin"
            name="pin"
            label={t('pinNew')}
            hint={t('pinHint')}
          />
        ) : (
          <p class="quiet">{t('pinNeedsDevice')}</p>
        )}
      </main>
    </>
  );
}
