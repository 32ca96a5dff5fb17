import { createServer, request } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface LosingRoad {
  readonly url: string;
  /** The next request whose body holds `text` reaches the server; its answer does not come back. */
  loseAnswerTo(text: string): void;
  /** How many answers were lost so far. */
  lost(): number;
  close(): Promise<void>;
}

/**
 * A road to the server that can lose an answer, as a phone does that leaves the house's network.
 * It stands outside the browser: what a page under a service worker sends cannot be caught inside in every version.
 */
export const losingRoad = async (server: string): Promise<LosingRoad> => {
  const { hostname, port } = new URL(server);
  let text: string | null = null;
  let lost = 0;
  const road = createServer((asked, answer) => {
    const body: Buffer[] = [];
    asked.on('data', (chunk: Buffer) => body.push(chunk));
    asked.on('end', () => {
      const whole = Buffer.concat(body);
      const loses = text !== null && whole.includes(text);
      if (loses) text = null;
      const { method, headers, url: path } = asked;
      const onward = request({ hostname, port, path, method, headers }, (reply) => {
        if (!loses) {
          answer.writeHead(reply.statusCode ?? 502, reply.headers);
          reply.pipe(answer);
          return;
        }
        reply.on('end', () => {
          lost += 1;
          answer.destroy();
        });
        reply.resume();
      });
      onward.on('error', () => answer.destroy());
      onward.end(whole);
    });
  });
  await new Promise<void>((done) => road.listen(0, '127.0.0.1', done));
  return {
    url: `http://127.0.0.1:${(road.address() as AddressInfo).port}`,
    loseAnswerTo: (part) => {
      text = part;
    },
    lost: () => lost,
    close: () =>
      new Promise((done) => {
        road.close(() => done());
        road.closeAllConnections();
      }),
  };
};
