type Run<Given extends readonly unknown[], Answer> = (...given: Given) => Answer;

/** A part of a request that a thread can work out; what it is given and what it answers can pass between threads. */
export interface RequestProgram<Given extends readonly unknown[], Answer> {
  readonly name: string;
  readonly load: () => Promise<Run<Given, Answer>>;
}

const known = new Map<string, () => Promise<Run<never[], unknown>>>();

/**
 * Makes a function known to the threads; the module that does so must be imported by the thread's program as well. `load` imports the
 * function's own module: a thread loads nothing but what it is asked for. It is kept for requests of others, so that a program holds nothing
 * between two tasks that one of them could tell of the other.
 */
export const requestProgram = <Given extends readonly unknown[], Answer>(
  name: string,
  load: () => Promise<Run<Given, Answer>>,
): RequestProgram<Given, Answer> => {
  if (known.has(name)) throw new Error(`Two request programs are named "${name}".`);
  known.set(name, load as () => Promise<Run<never[], unknown>>);
  return { name, load };
};

/** What a thread is sent. */
export interface RequestTask {
  readonly program: string;
  readonly given: readonly unknown[];
}

/** @throws Error for a program that the thread never imported. */
export const runProgram = async ({ program, given }: RequestTask): Promise<unknown> => {
  const load = known.get(program);
  if (load === undefined) throw new Error(`No request program is named "${program}" here.`);
  const run = await load();
  return run(...(given as never[]));
};
