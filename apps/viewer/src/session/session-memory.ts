import type { Session } from '../api/session.js';

const KEY = 'linewright-session';

/** Who was signed in last on this device, so that the bench opens while the server does not answer. No secret is in it. */
export function rememberSession(session: Session | null): void {
  try {
    // What the owner looks at as somebody else is no session of theirs.
    if (session?.looking === true) return;
    if (session === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, JSON.stringify(session));
  } catch {
    // A browser that keeps nothing works as long as it is connected.
  }
}

/** As devices kept it before a person was called one. */
type OlderSession = Omit<Session, 'person'> & { readonly keeper: Session['person'] };

export function rememberedSession(): Session | null {
  try {
    const text = localStorage.getItem(KEY);
    if (text === null) return null;
    const kept = JSON.parse(text) as Session | OlderSession;
    const session = 'keeper' in kept ? { ...kept, person: kept.keeper } : kept;
    // Kept before partners could sign in.
    return { ...session, role: session.role ?? 'OWNER', looking: session.looking ?? false };
  } catch {
    return null;
  }
}
