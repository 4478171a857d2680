// Who is signed in on which device.
import { computed, signal } from '@preact/signals';
import { adoptToken, CutOff, call, get, onSignedOut, post } from '../api/client';
import type { Person, Role, Session } from '../api/types';
import { viewsAreFor } from '../outbox/kept_views';
import { newKey } from '../outbox/uuid';
import { recall, remember } from './remembered';

export const session = signal<Session | null>(null);
/** Set when the session could not be asked for because there was no answer. */
export const sessionUnknown = signal(false);

export const me = computed<Person | null>(() => session.value?.person ?? null);

function ownDeviceId(): string {
  const known = recall('device');
  if (known) return known;
  const made = `browser-${newKey().slice(0, 13)}`;
  remember('device', made);
  return made;
}

const anonymousDevice = ownDeviceId();
export const thisDevice = computed(() => session.value?.device?.id ?? anonymousDevice);

export type Tile = Pick<Person, 'id' | 'initials' | 'name'>;

function listed(text: string | null): Tile[] {
  try {
    return JSON.parse(text ?? '[]') as Tile[];
  } catch {
    return [];
  }
}

/** Who may be tapped on an enrolled tablet: those the server names, else those who have signed in here before. */
export const tiles = computed<Tile[]>(() => {
  const now = session.value;
  if (!now?.device) return [];
  return now.people ?? listed(recall('tiles'));
});

function rememberTile({ id, initials, name }: Person): void {
  const others = listed(recall('tiles')).filter((p) => p.id !== id);
  remember('tiles', JSON.stringify([...others, { id, initials, name }].slice(-24)));
}

function take(next: Session): void {
  adoptToken(next);
  session.value = next;
  sessionUnknown.value = false;
  remember('person', next.person ? JSON.stringify(next.person) : '');
  if (next.person && next.device) rememberTile(next.person);
  void viewsAreFor(next.person?.id ?? null);
}

/** Asks the server; without an answer the last person on this tablet goes on, their work is kept until it is back. */
export async function loadSession(): Promise<void> {
  try {
    take(await get<Session>('/api/session'));
  } catch (error) {
    if (!(error instanceof CutOff)) throw error;
    sessionUnknown.value = true;
    const last = recall('person');
    if (last && !session.value)
      session.value = {
        person: JSON.parse(last) as Person,
        token: '',
        device: null,
        shop: { name: '', invented: false },
        first_start: false,
        secure: window.isSecureContext,
        version: '',
      };
  }
}

export async function signIn(id: string, secret: { password: string } | { pin: string }): Promise<void> {
  take(await post<Session>('/api/session', { id, ...secret }));
}

export async function makeFirstPerson(wanted: {
  code: string;
  id: string;
  initials: string;
  name: string;
  password: string;
}): Promise<void> {
  take(await post<Session>('/api/first-person', wanted));
}

export async function signOut(): Promise<void> {
  await call<void>('DELETE', '/api/session');
  if (session.value) take({ ...session.value, person: null });
  await loadSession();
}

onSignedOut.call = () => {
  if (session.value) session.value = { ...session.value, person: null };
  void loadSession();
};

const working: Role[] = ['technician', 'lead-hand'];

/** What the page offers; whether it may be done the server decides. */
export const mayWork = computed(() => me.value !== null && working.includes(me.value.role));
export const mayAnswerFor = computed(() => me.value?.role === 'lead-hand');
export const mayOpenJobs = computed(() => mayWork.value || me.value?.role === 'office');
