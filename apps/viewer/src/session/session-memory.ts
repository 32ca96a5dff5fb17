import type { Session } from '../api/session.js';

const KEY = 'linewright-session';

/** Who was signed in last on this device, so that the bench opens while the server does not answer. No secret is in it. */
export function rememberSession(session: Session | null): void {
  try {
    if (session === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, JSON.stringify(session));
  } catch {
    // A browser that keeps nothing works as long as it is connected.
  }
}

export function rememberedSession(): Session | null {
  try {
    const text = localStorage.getItem(KEY);
    return text === null ? null : (JSON.parse(text) as Session);
  } catch {
    return null;
  }
}
