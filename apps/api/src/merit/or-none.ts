import { MeritError } from '@linewright/merit';

/** What is worked out, or `null` where the records do not allow it. */
export const orNone = <Answer>(run: () => Answer): Answer | null => {
  try {
    return run();
  } catch (error) {
    if (error instanceof MeritError) return null;
    throw error;
  }
};
