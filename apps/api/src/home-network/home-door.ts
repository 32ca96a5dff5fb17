import { createServer as createPlainServer, type RequestListener } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { createServer, type Server, type Socket } from 'node:net';
import { isAtHome } from './home-addresses.js';
import type { ServerCertificate } from './house-certificate.js';
import { SET_UP_SCRIPT, setUpPage } from './set-up-page.js';

/** First byte of a TLS connection: a handshake record (RFC 8446, 5.1). */
const HANDSHAKE = 0x16;
/** Who connects and says nothing is not waited for longer, in milliseconds. */
const SILENT_MS = 15_000;

export interface HomeDoorParts {
  /** 0: any free one. */
  readonly port: number;
  readonly certificate: ServerCertificate;
  /** The authority's certificate, DER. */
  readonly authority: Uint8Array;
  readonly fingerprint: string;
  /** Answers what comes over TLS. */
  readonly answer: RequestListener;
}

export interface HomeDoor {
  readonly port: number;
  renew(certificate: ServerCertificate): void;
  close(): Promise<void>;
}

const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; script-src 'self'; connect-src https:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/** Over plain HTTP: how a phone learns the certificate, the certificate, and nothing else. */
const plainAnswers =
  ({ authority, fingerprint }: HomeDoorParts): RequestListener =>
  (req, res) => {
    const at = /^[\w.:[\]-]{1,253}$/.test(req.headers.host ?? '') ? req.headers.host! : '';
    const send = (type: string, body: string | Uint8Array): void => {
      res.writeHead(200, {
        'Content-Type': type,
        'Content-Security-Policy': POLICY,
        'X-Content-Type-Options': 'nosniff',
        'Cache-Control': 'no-store',
      });
      res.end(req.method === 'HEAD' ? undefined : body);
    };
    const path = (req.url ?? '/').split('?')[0];
    if (at === '' || !['GET', 'HEAD'].includes(req.method ?? '')) res.writeHead(400).end();
    else if (path === '/house.crt') send('application/x-x509-ca-cert', authority);
    else if (path === '/set-up.js') send('text/javascript; charset=utf-8', SET_UP_SCRIPT);
    else send('text/html; charset=utf-8', setUpPage({ at, fingerprint }));
  };

const listen = (server: Server, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    // IPv4 alone: whoever asks is held to the addresses of home networks, and those are IPv4's.
    server.listen(port, '0.0.0.0', () => {
      server.off('error', reject);
      resolve((server.address() as { port: number }).port);
    });
  });

/**
 * Listens to phones at home, on one port for both kinds of connection: over TLS the whole install answers, over plain HTTP a page that
 * teaches the certificate. Callers from outside of home networks are hung up on before a word is exchanged.
 *
 * @throws Error of the system, such as EADDRINUSE
 */
export const openHomeDoor = async (parts: HomeDoorParts): Promise<HomeDoor> => {
  const contextOf = ({ key, chain }: ServerCertificate) => ({ key, cert: chain });
  const secure = createSecureServer(
    { ...contextOf(parts.certificate), minVersion: 'TLSv1.2' },
    parts.answer,
  );
  const plain = createPlainServer(plainAnswers(parts));
  const sockets = new Set<Socket>();
  const door = createServer((socket) => {
    if (!isAtHome(socket.remoteAddress)) return void socket.destroy();
    sockets.add(
      socket.on('close', () => sockets.delete(socket)).on('error', () => socket.destroy()),
    );
    socket.setTimeout(SILENT_MS, () => socket.destroy());
    socket.once('data', (first: Buffer) => {
      socket.setTimeout(0);
      socket.removeAllListeners('timeout');
      socket.pause();
      socket.unshift(first);
      (first[0] === HANDSHAKE ? secure : plain).emit('connection', socket);
      process.nextTick(() => socket.resume());
    });
  });
  const port = await listen(door, parts.port);
  return {
    port,
    renew: (certificate) => secure.setSecureContext(contextOf(certificate)),
    close: () =>
      new Promise((resolve) => {
        door.close(() => resolve());
        for (const socket of sockets) socket.destroy();
      }),
  };
};
