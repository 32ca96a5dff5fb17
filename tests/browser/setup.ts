import { chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { browserPath, quiet } from './browser-path.js';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the run's browser is reached. */
    readonly browser: string;
  }
}

/** One browser for all files of a project; a carried one is unpacked by one process, not by two at the same time. */
export const setup = async (project: TestProject): Promise<() => Promise<void>> => {
  const executablePath = await browserPath();
  const server = await chromium.launchServer({
    executablePath,
    args: quiet,
    host: '127.0.0.1',
  });
  project.provide('browser', server.wsEndpoint());
  return () => server.close();
};
