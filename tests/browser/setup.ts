import { browserProgram } from './browser-program.js';

/** A carried browser is unpacked once, before there are workers to do it. */
export const setup = (): void => {
  browserProgram();
};
