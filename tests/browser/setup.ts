import { browserPath } from './browser-path.js';

/** A carried browser is unpacked by one process, not by two workers at the same time. */
export const setup = async (): Promise<void> => {
  await browserPath();
};
