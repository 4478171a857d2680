// What stands round every screen: the way home, the connection, and language, units and theme at any time.
import { useEffect, useState } from 'preact/hooks';
import { cutOff, Refused } from './api/client';
import { keepsForGood } from './outbox/database';
import { refused, serverTrouble, waiting } from './outbox/outbox';
import { address, go, route } from './route';
import { language, say, theme, units } from './session/preferences';
import { mayOpenJobs, me, session, signOut } from './session/session';
import { t } from './text/text';
import { announce } from './widgets/announce';
import { WorkButton } from './widgets/busy';
import { Dialog } from './widgets/dialog';
import { Choice, errorText, Notice } from './widgets/form';

function Mark() {
  return (
    <svg class="shop-mark" viewBox="0 0 32 32" aria-hidden="true">
      <path class="mark-ring" d="M13.4 3.3A13 13 0 1 0 18.6 3.3V8.2H13.4Z" />
      <circle class="mark-hole" cx="16.9" cy="16.6" r="6.2" />
    </svg>
  );
}

/** The three things every screen can switch. */
function Settings() {
  return (
    <div class="settings">
      <Choice
        label={t('language')}
        value={language.value}
        options={[
          { value: 'en', label: t('languageEn') },
          { value: 'es', label: t('languageEs') },
        ]}
        onValue={(v) => {
          language.value = v === 'es' ? 'es' : 'en';
        }}
      />
      <Choice
        label={t('units')}
        value={units.value}
        options={[
          { value: 'inch', label: t('inch') },
          { value: 'metric', label: t('metric') },
        ]}
        onValue={(v) => {
          units.value = v === 'metric' ? 'metric' : 'inch';
        }}
      />
      <Choice
        label={t('theme')}
        value={theme.value}
        options={[
          { value: 'bright', label: t('themeBright') },
          { value: 'dark', label: t('themeDark') },
        ]}
        onValue={(v) => {
          theme.value = v === 'dark' ? 'dark' : 'bright';
        }}
      />
    </div>
  );
}

function Menu({ onClose, onKeys }: { onClose: () => void; onKeys: () => void }) {
  const leave = async () => {
    await signOut().catch((e) => announce(e instanceof Refused ? errorText(e.error) : t('noAnswer')));
    onClose();
    go(address.benches);
  };
  return (
    <Dialog title={me.value ? `${me.value.initials} · ${me.value.name}` : t('settings')} onClose={onClose}>
      <Settings />
      {me.value && (
        <nav class="menu-links" aria-label={t('menu')}>
          <a class="button button-plain" href={address.benches}>
            {t('benchesToday')}
          </a>
          {mayOpenJobs.value && (
            <a class="button button-plain" href={address.new}>
              {t('newJob')}
            </a>
          )}
          <a class="button button-plain" href={address.returns}>
            {t('returnsTitle')}
          </a>
          <a class="button button-plain" href={address.shop('people')}>
            {t('shop')}
          </a>
          <a class="button button-plain" href={address.me}>
            {t('myPassword')}
          </a>
        </nav>
      )}
      <div class="row">
        <button type="button" class="button button-plain" onClick={onKeys}>
          {t('shortcuts')}
        </button>
        {me.value && <WorkButton onPress={leave}>{t('signOut')}</WorkButton>}
      </div>
      <p class="hint">
        {t('version', { version: session.value?.version || '–' })} ·{' '}
        {window.isSecureContext ? t('secureOn') : t('secureOff')}
      </p>
    </Dialog>
  );
}

function Shortcuts({ onClose }: { onClose: () => void }) {
  const keys: [string, string][] = [
    ['?', t('keyHelp')],
    ['/', t('keyFind')],
    ['g', t('keyBenches')],
    ['n', t('keyNext')],
    ['p', t('keyPrevious')],
    ['i', t('keyInput')],
    ['d', t('keyDone')],
    ['r', t('keyRelease')],
    ['Enter', t('keyEnter')],
    ['Backspace', t('keyUndo')],
    ['←  →', t('keyPlaces')],
    ['Esc', t('keyEscape')],
  ];
  return (
    <Dialog title={t('shortcuts')} onClose={onClose}>
      <dl class="keys">
        {keys.map(([key, what]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </Dialog>
  );
}

export function Banner() {
  const count = waiting.value.length;
  const mine = waiting.value.filter((k) => k.person === me.value?.id).length;
  useEffect(() => {
    if (cutOff.value) announce(t('cutOffBanner', { count }));
  }, [cutOff.value]);
  return (
    <>
      {cutOff.value && (
        <div class="banner banner-cut">
          <span>{t('cutOffBanner', { count })}</span>
          <a href={address.kept}>{t('showKept')}</a>
        </div>
      )}
      {!cutOff.value && count > mine && (
        <div class="banner">
          <span>{t('othersKept', { count: count - mine })}</span>
          <a href={address.kept}>{t('showKept')}</a>
        </div>
      )}
      {serverTrouble.value && <div class="banner banner-cut">{say(serverTrouble.value.text)}</div>}
      {refused.value.length > 0 && (
        <div class="banner banner-refused">
          <span>{t('refusedBanner', { count: refused.value.length })}</span>
          <a href={address.kept}>{t('showKept')}</a>
        </div>
      )}
      {!keepsForGood.value && <div class="banner">{t('keepsNothing')}</div>}
    </>
  );
}

const isTyping = (target: EventTarget | null) =>
  target instanceof HTMLElement &&
  target.matches('input:not([type=radio]):not([type=checkbox]),select,textarea,[data-typing]');

export function Header({ title, sub, back }: { title: string; sub?: string; back?: string }) {
  const [open, setOpen] = useState<'menu' | 'keys' | null>(null);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (isTyping(event.target) || event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.key === '?') setOpen('keys');
      else if (event.key === 'g' && me.value) go(address.benches);
      else return;
      event.preventDefault();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);
  useEffect(() => setOpen(null), [route.value]);
  useEffect(() => {
    document.title = `${title} · Pumpwright`;
  }, [title]);
  return (
    <header class="top">
      <a class="skip" href="#main">
        {t('skip')}
      </a>
      <a class="home" href={back ?? address.benches} aria-label={t('toBenches')}>
        <Mark />
      </a>
      <p class="top-title">
        <strong>{title}</strong>
        {sub && <span>{sub}</span>}
      </p>
      <span class={`link-state ${cutOff.value ? 'link-cut' : 'link-here'}`}>
        <svg viewBox="0 0 24 24" aria-hidden="true">
          {cutOff.value ? <path d="M4 4L20 20M20 4L4 20" /> : <path d="M3 12h5l2-5 4 10 2-5h5" />}
        </svg>
        <span>{cutOff.value ? t('cutOff', { count: waiting.value.length }) : t('connected')}</span>
      </span>
      <button type="button" class="button button-plain menu-button" onClick={() => setOpen('menu')}>
        {me.value ? me.value.initials : t('settings')}
        <svg viewBox="0 0 24 24" aria-hidden="true">
          <path d="M4 7h16M4 12h16M4 17h16" />
        </svg>
      </button>
      {open === 'menu' && <Menu onClose={() => setOpen(null)} onKeys={() => setOpen('keys')} />}
      {open === 'keys' && <Shortcuts onClose={() => setOpen(null)} />}
    </header>
  );
}

export function Trouble({ text }: { text: string }) {
  return (
    <main class="narrow" id="main">
      <Notice kind="error">{text}</Notice>
      <a class="button button-plain" href={address.benches}>
        {t('toBenches')}
      </a>
    </main>
  );
}
