// Who works here with which role, and which tablets take a PIN.
import { useState } from 'preact/hooks';
import { CutOff, post, Refused } from '../api/client';
import type { Role, ServerError, ShopView } from '../api/types';
import { nextDeviceSeq } from '../outbox/device_seq';
import { newKey } from '../outbox/uuid';
import { loadSession, mayAnswerFor, session, thisDevice } from '../session/session';
import { type TextKey, t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice, Select } from '../widgets/form';
import { ActResult, useShopAct } from './shop_acts';

const roles: [Role, TextKey][] = [
  ['technician', 'roleTechnician'],
  ['lead-hand', 'roleLeadHand'],
  ['office', 'roleOffice'],
  ['read-only', 'roleReadOnly'],
];

const roleOptions = () => roles.map(([value, key]) => ({ value, label: t(key) }));

/** Posts what is not an event; says what came of it. */
function usePost(onDone: () => void) {
  const [error, setError] = useState<ServerError | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [key, setKey] = useState(newKey);
  const send = async (path: string, body: object): Promise<boolean> => {
    setError(null);
    setSaid(null);
    const device = thisDevice.value;
    try {
      await post(path, { key, device, device_seq: await nextDeviceSeq(device), ...body });
      setKey(newKey());
      setSaid(t('saved'));
      onDone();
      return true;
    } catch (e) {
      if (e instanceof Refused) setError(e.error);
      else if (e instanceof CutOff) setSaid(t('noAnswer'));
      else throw e;
      return false;
    }
  };
  return { error, said, send };
}

function AddPerson({ onDone }: { onDone: () => void }) {
  const empty = { id: '', name: '', role: 'technician', password: '' };
  const [form, setForm] = useState(empty);
  const { error, said, send } = usePost(onDone);
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });
  const about = (field: string) => (error && isAbout(error, field) ? errorText(error) : null);
  const add = async () => {
    if (await send('/api/shop/people', { ...form, initials: form.id })) setForm(empty);
  };
  return (
    <form
      class="stack panel"
      onSubmit={(e) => {
        e.preventDefault();
        void add();
      }}
    >
      <h3>{t('addPerson')}</h3>
      <Field
        label={t('initialsAsSigned')}
        value={form.id}
        error={about('id') ?? about('initials')}
        onValue={set('id')}
      />
      <Field label={t('personName')} value={form.name} error={about('name')} onValue={set('name')} />
      <Select label={t('role')} value={form.role} options={roleOptions()} onValue={set('role')} />
      <Field
        label={t('firstPassword')}
        hint={t('passwordHint')}
        type="password"
        autoComplete="new-password"
        value={form.password}
        error={about('password')}
        onValue={set('password')}
      />
      {error && !['id', 'initials', 'name', 'password'].some((f) => isAbout(error, f)) && (
        <Notice kind="error">{errorText(error)}</Notice>
      )}
      {said && <p role="status">{said}</p>}
      <WorkButton kind="main" submit onPress={add}>
        {t('add')}
      </WorkButton>
    </form>
  );
}

export function People({ view, onDone }: { view: ShopView; onDone: () => void }) {
  const act = useShopAct();
  return (
    <>
      <section class="panel">
        <h2>{t('people')}</h2>
        <ul class="plain-list rows">
          {view.people.map((p) => (
            <li key={p.id} class="row-item">
              <span>
                <strong>{p.initials}</strong> {p.name}
                {!p.active && <em> {t('notActive')}</em>}
              </span>
              {mayAnswerFor.value ? (
                <>
                  <Select
                    label={t('roleOf', { person: p.initials })}
                    value={p.role}
                    options={roleOptions()}
                    onValue={(role) => void act.run('person-changed', { id: p.id, role })}
                  />
                  <WorkButton
                    onPress={async () =>
                      void (await act.run('person-changed', { id: p.id, active: !p.active }))
                    }
                  >
                    {p.active ? t('makeInactive') : t('makeActive')}
                  </WorkButton>
                </>
              ) : (
                <span>{roleOptions().find((r) => r.value === p.role)?.label}</span>
              )}
            </li>
          ))}
        </ul>
        <ActResult act={act} />
      </section>
      {mayAnswerFor.value && <AddPerson onDone={onDone} />}
    </>
  );
}

export function Devices({ view, onDone }: { view: ShopView; onDone: () => void }) {
  const [name, setName] = useState('');
  const act = useShopAct();
  const { error, said, send } = usePost(() => {
    onDone();
    void loadSession();
  });
  const enrolled = session.value?.device;
  return (
    <>
      <section class="panel">
        <h2>{t('devices')}</h2>
        <p>{t('devicesWhat')}</p>
        <ul class="plain-list rows">
          {view.devices.map((d) => (
            <li key={d.id} class="row-item">
              <span>
                <strong>{d.name}</strong> {enrolled?.id === d.id && <em>{t('thisOne')}</em>}
              </span>
              {mayAnswerFor.value && (
                <WorkButton
                  kind="danger"
                  onPress={async () => void (await act.run('device-dropped', { id: d.id }))}
                >
                  {t('drop')}
                </WorkButton>
              )}
            </li>
          ))}
        </ul>
        <ActResult act={act} />
      </section>
      {mayAnswerFor.value && !enrolled && (
        <form
          class="stack panel"
          onSubmit={(e) => {
            e.preventDefault();
            void send('/api/shop/devices', { name });
          }}
        >
          <h3>{t('enrolThis')}</h3>
          <Field
            label={t('deviceName')}
            hint={t('deviceNameHint')}
            value={name}
            onValue={setName}
            error={error ? errorText(error) : null}
          />
          {said && <p role="status">{said}</p>}
          <WorkButton kind="main" submit onPress={() => {}}>
            {t('enrolThis')}
          </WorkButton>
        </form>
      )}
    </>
  );
}
