import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const tests = fileURLToPath(new URL('..', import.meta.url));

const systemBrowsers = [
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

/** What a browser is started with. */
export interface BrowserProgram {
  readonly executablePath: string;
  readonly env: NodeJS.ProcessEnv;
}

const PACKAGE = '@sparticuz/chromium';

const unpackedFolder = (): string => {
  const { devDependencies } = JSON.parse(readFileSync(join(tests, 'package.json'), 'utf8')) as {
    devDependencies: { [PACKAGE]: string };
  };
  const name = `linewright-chromium-${devDependencies[PACKAGE]}`;
  return join(tests, '..', 'node_modules', '.cache', name);
};

/** Whole or not at all, whoever else does the same: it is made beside its place and then renamed. */
const unpackInto = (folder: string): void => {
  mkdirSync(dirname(folder), { recursive: true });
  const partial = mkdtempSync(`${folder}-partial-`);
  try {
    // The package unpacks into the folder for such things, and its libraries only where it believes itself on that runtime.
    execFileSync(
      process.execPath,
      [
        '--input-type=module',
        '-e',
        `import carried from '${PACKAGE}'; await carried.executablePath();`,
      ],
      {
        cwd: tests,
        env: { ...process.env, TMPDIR: partial, AWS_LAMBDA_JS_RUNTIME: 'nodejs20.x' },
      },
    );
    // The carried font settings name /tmp/fonts; the fonts are here, and without one the browser dies.
    writeFileSync(
      join(partial, 'fonts-here.conf'),
      `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>${folder}/fonts</dir><cachedir>${folder}/fonts-cache</cachedir></fontconfig>`,
    );
    renameSync(partial, folder);
  } catch (error) {
    rmSync(partial, { recursive: true, force: true });
    if (!existsSync(folder)) throw error;
  }
};

const carriedBrowser = (): BrowserProgram => {
  const folder = unpackedFolder();
  if (!existsSync(folder)) unpackInto(folder);
  const libraries = [join(folder, 'al2023', 'lib'), process.env['LD_LIBRARY_PATH']];
  return {
    executablePath: join(folder, 'chromium'),
    env: {
      ...process.env,
      LD_LIBRARY_PATH: libraries.filter((each) => each !== undefined && each !== '').join(':'),
      FONTCONFIG_FILE: join(folder, 'fonts-here.conf'),
    },
  };
};

/** One that the machine has; the bench, which is a bundle elsewhere, has no other. */
export const systemBrowser = (): BrowserProgram => {
  const executablePath = systemBrowsers.find((path) => existsSync(path));
  if (executablePath === undefined)
    throw new Error(
      'No Chromium was found: install Chromium or Chrome, or name one with CHROMIUM_PATH, and run the tests again.',
    );
  return { executablePath, env: process.env };
};

/**
 * The browser of the tests: the one named by CHROMIUM_PATH; else, on Linux x64, the one carried in an npm package, which takes a sixth
 * of the processor time for a new context and has the same fonts on every machine; else one of the system. Fails with what to install,
 * never skips.
 */
export const browserProgram = (): BrowserProgram => {
  const named = process.env['CHROMIUM_PATH'] ?? '';
  if (named !== '') return { executablePath: named, env: process.env };
  return process.platform === 'linux' && process.arch === 'x64'
    ? carriedBrowser()
    : systemBrowser();
};
