import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { PASSWORD } from '../api/harness.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface SecondProcess {
  readonly child: ChildProcess;
  readonly url: string;
}

/** The built server as a second process on the same database. */
export const startSecond = async (
  databaseUrl: string,
  environment: Readonly<Record<string, string>> = {},
): Promise<SecondProcess> => {
  const child = spawn(process.execPath, ['apps/api/dist/main.js'], {
    cwd: root,
    env: { ...process.env, PORT: '0', DATABASE_URL: databaseUrl, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const url = await new Promise<string>((resolve, reject) => {
    let said = '';
    const read = (chunk: Buffer): void => {
      said += chunk.toString();
      const found = /is at (http:\S+)/.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.on('exit', (code) => reject(new Error(`It stopped with ${code}: ${said}`)));
  });
  return { child, url };
};

/** Signs in there; answers the cookie. */
export const signIn = async (url: string): Promise<string> => {
  const response = await fetch(`${url}/graphql`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      query: 'mutation ($password: String!) { signIn(password: $password) { signedIn } }',
      variables: { password: PASSWORD },
    }),
  });
  const cookie = response.headers.get('set-cookie')?.split(';')[0];
  if (cookie === undefined) throw new Error(await response.text());
  return cookie;
};

/** Ends it at once, as a power cut would. */
export const killNow = async (child: ChildProcess): Promise<void> => {
  const gone = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGKILL');
  await gone;
};

export const until = async (
  holds: () => boolean | Promise<boolean>,
  everyMs = 50,
  atMostMs = 200_000,
): Promise<void> => {
  const end = performance.now() + atMostMs;
  while (!(await holds())) {
    if (performance.now() > end)
      throw new Error(`It did not come about in ${atMostMs / 1000} seconds.`);
    await new Promise((resolve) => setTimeout(resolve, everyMs));
  }
};
