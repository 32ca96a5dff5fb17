import { Buffer } from 'node:buffer';
import { Socket } from 'node:net';
import { isMainThread } from 'node:worker_threads';

/**
 * Given to a server with `node --import`, after the meter of its event loop: counts the statements that it sends to PostgreSQL, by the
 * protocol's own messages (Query, Execute), whichever driver sends them.
 */

const [QUERY, EXECUTE] = ['Q'.charCodeAt(0), 'E'.charCodeAt(0)];

if (isMainThread && process.send !== undefined) {
  let sent = 0;
  const write = Socket.prototype.write;
  Socket.prototype.write = function (chunk, ...given) {
    if (
      Buffer.isBuffer(chunk) &&
      chunk.length > 5 &&
      (chunk[0] === QUERY || chunk[0] === EXECUTE) &&
      chunk.readUInt32BE(1) === chunk.length - 1
    )
      sent += 1;
    return write.call(this, chunk, ...given);
  };
  const send = process.send.bind(process);
  // The answer of the other meter takes this one's along.
  process.send = (answer, ...given) => {
    const statements = sent;
    sent = 0;
    return send({ ...answer, statements }, ...given);
  };
}
