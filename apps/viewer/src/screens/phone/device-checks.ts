import type { PagesKept } from '../../session/pages-kept.js';

/** What this browser says of itself, and of its way to the machine; `null` while it is not known yet. */
export interface DeviceFacts {
  /** The address as it was opened. */
  readonly address: string;
  readonly secure: boolean;
  /** In a browser on the machine itself. */
  readonly onMachine: boolean;
  /** Whether the machine answers now. */
  readonly answers: boolean | null;
  readonly pages: PagesKept;
  /** Whether something could be written down and read again. */
  readonly stores: boolean | null;
  /** Whether the browser promised not to clear it by itself; `null` where it does not say. */
  readonly lasting: boolean | null;
}

export interface DeviceCheck {
  readonly key: 'machine' | 'secure' | 'pages' | 'stores' | 'lasting';
  readonly title: string;
  /** `null` while it is not known yet. */
  readonly good: boolean | null;
  readonly words: string;
}

const machine = ({ answers }: DeviceFacts): DeviceCheck => ({
  ...{ key: 'machine', title: 'The machine answers', good: answers },
  words:
    answers === false
      ? 'It does not. Is Linewright running, and is this device in the same network as the machine? Mobile data, a network for guests and a second router are others.'
      : 'This device is in the right network.',
});

const secure = ({ secure: good, onMachine, address }: DeviceFacts): DeviceCheck => {
  const words = !good
    ? `You opened ${address}, which is not secure (http). Browsers keep no pages there, passwords are mostly refused, and passkeys, the camera and copying do not work. Open the address that begins with https.`
    : onMachine
      ? 'You are on the machine itself: nothing goes over a network.'
      : 'What is sent can be read by nobody on the way.';
  return { key: 'secure', title: 'The connection is secure', good, words };
};

const pagesWords: Readonly<Record<PagesKept, string>> = {
  kept: 'Screens open without a connection, and the bench goes on.',
  coming: 'They are being kept: wait a moment, then look again.',
  insecure:
    'They are not: browsers keep pages only over https. Entries still wait while a page stays open.',
  refused:
    'They are not: this device does not trust the certificate of the machine. Teach it as the steps say; going past a warning is not enough.',
  unable: 'This browser cannot keep pages, as in a private window: use another window or browser.',
};

/** Without a certificate in between, something of the browser's own refuses. */
const REFUSED_WITHOUT_TLS =
  'They are not: the browser refuses to keep them, by a setting of its own or in a private window.';

const kept = ({ pages, address }: DeviceFacts): DeviceCheck => ({
  ...{ key: 'pages', title: 'The pages are kept on this device' },
  good: pages === 'coming' ? null : pages === 'kept',
  words:
    pages === 'refused' && !address.startsWith('https:') ? REFUSED_WITHOUT_TLS : pagesWords[pages],
});

const stores = ({ stores: good }: DeviceFacts): DeviceCheck => ({
  ...{ key: 'stores', title: 'Entries can wait on this device', good },
  words:
    good === false
      ? 'They cannot: the browser stores nothing, as in a private window or on a full device. Use another window, or free some room.'
      : 'What you enter is written down here first, then sent.',
});

const lasting = ({ lasting: good }: DeviceFacts): DeviceCheck => ({
  ...{ key: 'lasting', title: 'What waits here is not cleared', good: good ?? false },
  words:
    good === true
      ? 'The browser keeps it until you clear it.'
      : 'The browser may clear it when room is short or after days without a visit. Add Linewright to the home screen (in the browser’s menu), open it from there, and let entries be sent soon.',
});

/** What works on this device and what does not, each with what to do. */
export const deviceChecks = (facts: DeviceFacts): DeviceCheck[] => {
  const always = [machine(facts), secure(facts), kept(facts), stores(facts)];
  return facts.stores === true ? [...always, lasting(facts)] : always;
};
