import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

const systemBrowsers = [
  process.env['CHROMIUM_PATH'],
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

export const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const carriedBrowser = async (): Promise<string> => {
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error(
      'No Chromium was found: install Chromium or Chrome, or name one with CHROMIUM_PATH, and run the tests again.',
    );
  }
  // The package unpacks its libraries only where it believes itself on that runtime.
  process.env['AWS_LAMBDA_JS_RUNTIME'] ??= 'nodejs20.x';
  const cache = join(root, 'node_modules', '.cache', 'linewright-chromium');
  mkdirSync(cache, { recursive: true });
  process.env['TMPDIR'] = cache;
  const { default: carried } = await import('@sparticuz/chromium');
  const path = await carried.executablePath();
  // The carried font settings name /tmp/fonts; the fonts were unpacked here, and without one the browser dies.
  const settings = join(cache, 'fonts-here.conf');
  writeFileSync(
    settings,
    `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>${cache}/fonts</dir><cachedir>${cache}/fonts-cache</cachedir></fontconfig>`,
  );
  process.env['FONTCONFIG_FILE'] = settings;
  return path;
};

/** A Chromium of the system, or the one carried in an npm package; fails with what to install, never skips. */
export const browserPath = async (): Promise<string> =>
  systemBrowsers.find((path) => path !== undefined && path !== '' && existsSync(path)) ??
  (await carriedBrowser());
