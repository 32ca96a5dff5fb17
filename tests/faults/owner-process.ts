import { createInterface } from 'node:readline';
import { EmbeddedDatabaseError, startEmbeddedDatabase } from '@linewright/embedded-database';

/** A process of its own that uses the launcher: prints one JSON object a line, obeys `stop` on its input. */
const say = (line: object) => process.stdout.write(`${JSON.stringify(line)}\n`);

const [dataDir = '', port] = process.argv.slice(2);
try {
  const database = await startEmbeddedDatabase({
    dataDir,
    log: (text) => {
      say({ event: 'log', text });
    },
    ...(port === undefined ? {} : { port: Number(port) }),
  });
  const { url, attached, clusterDir } = database;
  say({ event: 'ready', url, attached, clusterDir, port: database.port });
  for await (const line of createInterface({ input: process.stdin })) {
    if (line !== 'stop') continue;
    await database.stop();
    say({ event: 'stopped' });
    break;
  }
  process.exit(0);
} catch (error) {
  if (error instanceof EmbeddedDatabaseError)
    say({ event: 'error', code: error.code, text: error.message });
  else say({ event: 'error', code: 'UNEXPECTED', text: String(error) });
  process.exit(3);
}
