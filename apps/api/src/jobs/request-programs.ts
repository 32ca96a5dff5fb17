/** A part of a request that a thread can work out; what it is given and what it answers can pass between threads. */
export interface RequestProgram<Given extends readonly unknown[], Answer> {
  readonly name: string;
  readonly run: (...given: Given) => Answer;
}

const known = new Map<string, (...given: never[]) => unknown>();

/** Makes a function known to the threads; the module that does so must be imported by the thread's program as well. */
export const requestProgram = <Given extends readonly unknown[], Answer>(
  name: string,
  run: (...given: Given) => Answer,
): RequestProgram<Given, Answer> => {
  if (known.has(name)) throw new Error(`Two request programs are named "${name}".`);
  known.set(name, run as (...given: never[]) => unknown);
  return { name, run };
};

/** What a thread is sent. */
export interface RequestTask {
  readonly program: string;
  readonly given: readonly unknown[];
}

/** @throws Error for a program that the thread never imported. */
export const runProgram = ({ program, given }: RequestTask): unknown => {
  const run = known.get(program);
  if (run === undefined) throw new Error(`No request program is named "${program}" here.`);
  return run(...(given as never[]));
};
