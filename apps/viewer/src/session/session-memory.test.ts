import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Session } from '../api/session.js';
import { rememberedSession, rememberSession } from './session-memory.js';

const person = { id: 'p1', name: 'Ada', here: true };
const session: Session = {
  person,
  role: 'OWNER',
  looking: false,
  ofTheHouse: true,
  setUpNeeded: false,
  codeNeeded: false,
  demoOffered: false,
  demoOpen: false,
  signedIn: true,
  hasPassword: true,
  loopback: false,
};

const device = (kept: Record<string, string>) => {
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept[key] ?? null,
    setItem: (key: string, text: string) => (kept[key] = text),
    removeItem: (key: string) => Reflect.deleteProperty(kept, key),
  });
  return kept;
};

describe('who was signed in last on this device', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('is told as it was kept, until signed out', () => {
    device({});
    rememberSession(session);
    expect(rememberedSession()).toEqual(session);
    rememberSession(null);
    expect(rememberedSession()).toBeNull();
  });

  it('is read as earlier versions kept it', () => {
    const { person: keeper, ...rest } = session;
    device({ 'linewright-session': JSON.stringify({ ...rest, keeper }) });
    expect(rememberedSession()?.person).toEqual(person);
  });

  it('is nobody when what was kept is no session', () => {
    device({ 'linewright-session': '{' });
    expect(rememberedSession()).toBeNull();
  });
});
