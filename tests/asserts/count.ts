import { afterEach, expect } from 'vitest';

declare module 'vitest' {
  interface TaskMeta {
    /** How often a test asserted, those within loops and polls each time that they ran. */
    asserts?: number;
  }
}

afterEach(({ task }) => {
  task.meta.asserts = expect.getState().assertionCalls;
});
