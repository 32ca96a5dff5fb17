import { spawn } from 'node:child_process';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD, type RunningApi, startApi, recordsOf } from '../api/harness.js';
import { repository } from './processes.js';

interface Ended {
  readonly code: number | null;
  readonly said: string;
}

const SIGN_IN = 'mutation ($password: String!) { signIn(password: $password) { signedIn } }';
const ANOTHER = 'another-pond-horse';

let api: RunningApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(() => api.close());

/** A built program on the database of the running server, given one line of input. */
const run = (script: string, input: string, environment: NodeJS.ProcessEnv = {}): Promise<Ended> =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, [`apps/api/dist/${script}.js`], {
      cwd: repository,
      env: { ...process.env, PORT: '0', DATABASE_URL: api.served.databaseUrl, ...environment },
      stdio: ['pipe', 'pipe', 'pipe'],
    });
    let said = '';
    const read = (chunk: Buffer): void => {
      said += chunk.toString();
      if (/is at http/.test(said)) child.kill('SIGINT');
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.on('close', (code) => resolve({ code, said }));
    child.stdin.end(input);
  });

const codeOf = async (password: string): Promise<string | undefined> =>
  (await api.send(SIGN_IN, { password })).errors?.[0]?.extensions.code;

describe('a lost password', () => {
  it('is set anew from the machine, ends every session and lets a refused caller in', async () => {
    for (let i = 0; i < 10; i++) await codeOf('not-the-password');
    expect(await codeOf(PASSWORD)).toBe('TOO_MANY_ATTEMPTS');
    const { code, said } = await run('password', `${ANOTHER}\n`);
    expect([code, said]).toEqual([0, expect.stringContaining('has a new password')]);
    expect((await api.send('{ lines { id } }')).errors?.[0]?.extensions.code).toBe(
      'SIGN_IN_NEEDED',
    );
    expect(await codeOf(PASSWORD)).toBe('PASSWORD_WRONG');
    expect(await codeOf(ANOTHER)).toBeUndefined();
  });

  it('too short, or none, changes nothing', async () => {
    expect(await run('password', 'short\n')).toMatchObject({
      code: 1,
      said: expect.stringContaining('5 characters') as unknown,
    });
    expect(await run('password', '')).toMatchObject({ code: 1 });
    expect(await codeOf(ANOTHER)).toBeUndefined();
  });

  it('OWNER_PASSWORD does not replace, and says so', async () => {
    const { said } = await run('main', '', { OWNER_PASSWORD: 'a-third-password' });
    expect(said).toContain('npm run password');
    expect(await codeOf('a-third-password')).toBe('PASSWORD_WRONG');
  });
});

describe('a database that a newer program wrote', () => {
  it('is refused by name by every program, and nothing is written', async () => {
    const dataSource = await recordsOf(api);
    await dataSource.query(
      `INSERT INTO migration ("timestamp", name) VALUES (1999999999999, 'FarAhead1999999999999')`,
    );
    await dataSource.query(`UPDATE install_state SET program_version = '9.8.7'`);
    for (const script of ['main', 'password', 'backup']) {
      const { code, said } = await run(script, `${ANOTHER}-too\n`);
      expect([script, code]).toEqual([script, 1]);
      expect(said).toMatch(/9\.8\.7.*FarAhead1999999999999.*Start the newer Linewright/s);
    }
    expect(await dataSource.query('SELECT program_version AS v FROM install_state')).toEqual([
      { v: '9.8.7' },
    ]);
    expect(await codeOf(ANOTHER)).toBeUndefined();
  });
});
