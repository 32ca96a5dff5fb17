import { type FieldProblem, RequestError, fieldError } from './request-error.js';

/** Goes through all checks of a form before it says what is wrong, so that nobody mends one field to hear of the next. */
export class FieldChecks {
  private readonly problems: FieldProblem[] = [];

  /** Notes what is wrong with a field. */
  refuse(field: string, message: string): void {
    this.problems.push({ field, message });
  }

  /** Runs a check that throws what is wrong, and notes it; whatever else it throws passes. */
  async keep<T>(check: () => T | Promise<T>): Promise<T | undefined> {
    try {
      return await check();
    } catch (error) {
      this.note(error);
      return undefined;
    }
  }

  /** The same for a check that waits for nothing. */
  keepNow<T>(check: () => T): T | undefined {
    try {
      return check();
    } catch (error) {
      this.note(error);
      return undefined;
    }
  }

  /** @throws RequestError `VALIDATION` with every field noted, in the order of noting. */
  expectNone(): void {
    if (this.problems.length > 0) throw fieldError(...this.problems);
  }

  private note(error: unknown): void {
    const fields = error instanceof RequestError ? error.details['fields'] : undefined;
    if (!(error instanceof RequestError) || error.code !== 'VALIDATION' || !Array.isArray(fields))
      throw error;
    this.problems.push(...(fields as FieldProblem[]));
  }
}
