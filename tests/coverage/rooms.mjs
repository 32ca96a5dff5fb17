/** Where a file of source belongs: a lib, a part of the database, the shell, or a room of the API or the viewer. */
export const roomOf = (path) =>
  /^apps\/(?:api|viewer)\/src\/[^/]+(?=\/)/.exec(path)?.[0] ??
  /^(?:apps|libs|db)\/[^/]+/.exec(path)?.[0] ??
  null;

/**
 * Statements of each room, the least reached first. `summary` is that of Vitest's json-summary: by absolute path, how many statements a
 * file has and how many were run.
 */
export const byRoom = (summary, root) => {
  const rooms = new Map();
  for (const [path, { statements }] of Object.entries(summary)) {
    const room = path.startsWith(root) ? roomOf(path.slice(root.length)) : null;
    if (room === null) continue;
    const { total, covered } = rooms.get(room) ?? { total: 0, covered: 0 };
    rooms.set(room, { total: total + statements.total, covered: covered + statements.covered });
  }
  return [...rooms]
    .filter(([, { total }]) => total > 0)
    .map(([room, { total, covered }]) => ({ room, total, covered, share: covered / total }))
    .sort((a, b) => a.share - b.share || a.room.localeCompare(b.room));
};
