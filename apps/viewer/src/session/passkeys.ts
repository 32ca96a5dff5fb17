/** What is asked of a browser. */
export interface PasskeyBrowser {
  readonly isSecureContext: boolean;
  readonly location: { readonly hostname: string; readonly port: string };
  readonly PublicKeyCredential?: unknown;
}

export interface PasskeysHere {
  readonly possible: boolean;
  /** Why not, and what to do; `null` where they are possible. */
  readonly why: string | null;
}

const no = (why: string): PasskeysHere => ({ possible: false, why });

/** Whether this browser can use passkeys at the address that it is at (Web Authentication: a secure address with a name). */
export function passkeysHere(browser: PasskeyBrowser): PasskeysHere {
  const { hostname, port } = browser.location;
  if (/^[\d.]+$|^\[/.test(hostname)) {
    const local = /^127\.|^\[::1\]$/.test(hostname);
    return no(
      local
        ? `Passkeys need an address with a name: open http://localhost${port === '' ? '' : `:${port}`} in place of this one to add and use them.`
        : 'Passkeys need an address with a name and a secure connection (https): this one has no name.',
    );
  }
  if (!browser.isSecureContext)
    return no('Passkeys need a secure connection (https), and this one is not.');
  if (browser.PublicKeyCredential === undefined) return no('This browser has no passkeys.');
  return { possible: true, why: null };
}

/** What a device says when it makes or gives no passkey, in words for the person before it. */
export function refusalWords(error: unknown): string {
  const name = error instanceof Error ? error.name : '';
  if (name === 'InvalidStateError') return 'This device has a passkey for you already.';
  if (name === 'NotAllowedError')
    return 'The device gave no passkey: it was not unlocked, it has none for this address, or it took too long. Try again, or use your password.';
  return 'The device gave no passkey. Try again, or use your password.';
}
