/** What PostgreSQL says to a transaction that saw rows which another one changed meanwhile: begin again. */
const SERIALIZATION_FAILURE = '40001';
const MOST_TIMES = 5;

const isFailure = (error: unknown): boolean =>
  (error as { driverError?: { code?: string } }).driverError?.code === SERIALIZATION_FAILURE;

/** Does work of one snapshot, and begins again where another transaction was quicker. @throws what the work throws, the fifth time at last */
export const whenOthersWrite = async <Result>(work: () => Promise<Result>): Promise<Result> => {
  for (let time = 1; ; time++) {
    try {
      return await work();
    } catch (error) {
      if (time === MOST_TIMES || !isFailure(error)) throw error;
    }
  }
};
