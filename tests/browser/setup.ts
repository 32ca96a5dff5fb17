import { browserPath } from './harness.js';

/** Once before all browser tests: a carried browser is unpacked by one process, not by two at the same time. */
export const setup = async (): Promise<void> => {
  await browserPath();
};
