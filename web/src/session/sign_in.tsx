// Signing in at the bench: on an enrolled tablet a tile and a PIN, elsewhere name and password.
import { useState } from 'preact/hooks';
import { CutOff, Refused } from '../api/client';
import { flush } from '../outbox/outbox';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, Notice } from '../widgets/form';
import { session, signIn, tiles } from './session';

/** Runs an attempt; gives what to show when it did not work. */
async function attempt(act: () => Promise<void>): Promise<string | null> {
  try {
    await act();
    void flush();
    return null;
  } catch (error) {
    if (error instanceof Refused) {
      const wait = error.retryAfterSeconds;
      return errorText(error.error) + (wait ? ` ${t('waitSeconds', { seconds: wait })}` : '');
    }
    if (error instanceof CutOff) return t('noAnswer');
    throw error;
  }
}

function PasswordForm() {
  const [id, setId] = useState('');
  const [password, setPassword] = useState('');
  const [error, setError] = useState<string | null>(null);
  const submit = async () => {
    if (id.trim() === '' || password === '') {
      setError(t('enterBoth'));
      return;
    }
    setError(await attempt(() => signIn(id.trim(), { password })));
  };
  return (
    <form
      class="stack"
      onSubmit={(e) => {
        e.preventDefault();
        void submit();
      }}
    >
      <Field label={t('personId')} value={id} onValue={setId} autoComplete="username" />
      <Field
        label={t('password')}
        type="password"
        value={password}
        onValue={setPassword}
        autoComplete="current-password"
        error={error}
      />
      <WorkButton kind="main" submit onPress={submit}>
        {t('signIn')}
      </WorkButton>
    </form>
  );
}

function PinPad({ id, onBack }: { id: string; onBack: () => void }) {
  const [pin, setPin] = useState('');
  const [error, setError] = useState<string | null>(null);
  const enter = async () => {
    const said = await attempt(() => signIn(id, { pin }));
    setPin('');
    setError(said);
  };
  const add = (digit: string) => {
    setError(null);
    setPin((p) => (p.length < 12 ? p + digit : p));
  };
  return (
    <form
      class="pin"
      onSubmit={(e) => {
        e.preventDefault();
        void enter();
      }}
    >
      <Field
        label={t('pinOf', { person: id })}
        type="password"
        inputMode="numeric"
        value={pin}
        onValue={setPin}
        error={error}
      />
      <div class="pad pad-pin">
        {['1', '2', '3', '4', '5', '6', '7', '8', '9'].map((d) => (
          <button type="button" class="pad-key" key={d} onClick={() => add(d)}>
            {d}
          </button>
        ))}
        <button type="button" class="pad-key pad-word" onClick={() => setPin((p) => p.slice(0, -1))}>
          {t('erase')}
        </button>
        <button type="button" class="pad-key" onClick={() => add('0')}>
          0
        </button>
        <button type="submit" class="pad-key pad-enter pad-word">
          {t('signIn')}
        </button>
      </div>
      <button type="button" class="button button-plain" onClick={onBack}>
        {t('otherPerson')}
      </button>
    </form>
  );
}

export function SignIn() {
  const [chosen, setChosen] = useState<string | null>(null);
  const [byPassword, setByPassword] = useState(false);
  const people = tiles.value;
  const byTile = people.length > 0 && !byPassword;
  return (
    <main class="narrow" id="main">
      <h1>{session.value?.shop.name || t('signIn')}</h1>
      {session.value?.shop.invented && <p class="invented">{t('inventedShop')}</p>}
      {!window.isSecureContext && <Notice kind="plain">{t('insecureNote')}</Notice>}
      {byTile && chosen === null && (
        <>
          <h2>{t('whoIsThere')}</h2>
          <div class="people">
            {people.map((p) => (
              <button type="button" class="person-tile" key={p.id} onClick={() => setChosen(p.id)}>
                <strong>{p.initials}</strong>
                <span>{p.name}</span>
              </button>
            ))}
          </div>
        </>
      )}
      {byTile && chosen !== null && <PinPad id={chosen} onBack={() => setChosen(null)} />}
      {!byTile && <PasswordForm />}
      {people.length > 0 && (
        <button type="button" class="button button-plain" onClick={() => setByPassword(!byPassword)}>
          {byPassword ? t('usePin') : t('usePassword')}
        </button>
      )}
    </main>
  );
}
