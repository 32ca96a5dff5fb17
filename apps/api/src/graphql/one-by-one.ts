/** Of each request, by the name of the operation: the end of the last one that was begun. */
const lastOf = new WeakMap<object, Map<string, Promise<unknown>>>();

const nextTurn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
const settled = (): undefined => undefined;

/**
 * Lets an operation that one request asks for several times, under aliases, be worked out one after the other, each in a turn of the
 * event loop of its own: together they would hold up everyone else for as long as all of them take.
 */
export const oneByOne = (context: object, operation: string, work: () => unknown): unknown => {
  const begun = lastOf.get(context) ?? new Map<string, Promise<unknown>>();
  lastOf.set(context, begun);
  const before = begun.get(operation);
  // Work may fail before it gives a promise.
  begun.set(operation, before ?? Promise.resolve());
  const answer = before === undefined ? work() : before.then(nextTurn).then(work);
  begun.set(operation, Promise.resolve(answer).then(settled, settled));
  return answer;
};
