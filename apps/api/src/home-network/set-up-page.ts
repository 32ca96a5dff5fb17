/** What the page for a phone that does not know this machine's certificate yet has to say. */
export interface SetUpFacts {
  /** Host and port as the phone typed them. */
  readonly at: string;
  readonly fingerprint: string;
}

const escaped = (text: string): string =>
  text.replace(/[&<>"']/g, (letter) => `&#${letter.charCodeAt(0)};`);

const STYLE = `:root{color-scheme:light dark;--paper:#fbfdfc;--ink:#17211f;--way:#0a5c57}
@media(prefers-color-scheme:dark){:root{--paper:#0f1716;--ink:#e3ecea;--way:#7fd6cd}}
body{background:var(--paper);color:var(--ink);font:1.05rem/1.5 system-ui,sans-serif;max-width:38rem;margin:0 auto;padding:1rem}
a{color:var(--way)}a.go{display:inline-block;padding:.8rem 1.2rem;border:2px solid;border-radius:.5rem;font-weight:600}
code{font-size:.9rem;overflow-wrap:anywhere}summary{padding:.6rem 0;font-weight:600;cursor:pointer}li{margin:.4rem 0}`;

/** Asks over https whether the phone trusts this machine by now. */
export const SET_UP_SCRIPT = `const told = document.getElementById('told');
const look = () => fetch('https://' + location.host + '/healthz', { mode: 'no-cors', cache: 'no-store' }).then(
  () => { told.textContent = 'This phone trusts this machine now. Open Linewright below.'; },
  () => { told.textContent = 'This phone does not trust this machine yet: go through the steps below, then come back to this page.'; });
look();
document.addEventListener('visibilitychange', () => { if (!document.hidden) look(); });
`;

/** Plain HTML over plain HTTP: nothing of the records, no password, only how a phone is taught the certificate. */
export const setUpPage = ({ at, fingerprint }: SetUpFacts): string => `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<title>This phone and Linewright</title><style>${STYLE}</style></head><body><main>
<h1>This phone and Linewright</h1>
<p>You reach the machine on which Linewright runs: the network is right. This page is open to read on the way, so it takes no password and shows no records.</p>
<p role="status" id="told">Looking whether this phone trusts this machine…</p>
<h2>1. Get the certificate</h2>
<p><a class="go" href="/house.crt">Get the certificate</a></p>
<p>Compare: on the machine, the page “Phone” shows the same letters. If they differ, stop: something else answers in its place.</p>
<p><code>${escaped(fingerprint)}</code></p>
<h2>2. Teach the phone to trust it</h2>
<details><summary>iPhone or iPad</summary><ol>
<li>Open this page in Safari, tap “Get the certificate”, and allow the download.</li>
<li>Open Settings. Tap “Profile Downloaded” near the top; if it is not there: General, then VPN &amp; Device Management.</li>
<li>Tap Install, type the phone’s code, and confirm.</li>
<li>In Settings again: General, About, and at the very end Certificate Trust Settings. Switch on the entry that begins with “Linewright at home”.</li>
</ol></details>
<details><summary>Android</summary><ol>
<li>Open this page in Chrome and tap “Get the certificate”. It lands in your downloads.</li>
<li>Open Settings and search in it for “CA certificate”. It is mostly under Security, Encryption &amp; credentials, Install a certificate.</li>
<li>Choose CA certificate, read the warning, and install anyway.</li>
<li>Choose the file “house.crt” among the downloads. A phone without a screen lock asks for one first.</li>
</ol></details>
<p>The certificate vouches for names and addresses at home only, never for a website. To take it away again: the same places in the phone’s settings.</p>
<h2>3. Open Linewright</h2>
<p><a class="go" href="https://${escaped(at)}/phone">Open Linewright</a></p>
</main><script src="/set-up.js"></script></body></html>
`;
