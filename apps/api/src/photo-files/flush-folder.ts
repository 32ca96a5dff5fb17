import { open } from 'node:fs/promises';

/** Flushes the names in a folder to the disk; folders cannot be opened for that on every system. */
export const flushFolder = async (path: string): Promise<void> => {
  try {
    const folder = await open(path, 'r');
    try {
      await folder.sync();
    } finally {
      await folder.close();
    }
  } catch (error) {
    if (!['EISDIR', 'EPERM', 'EINVAL'].includes((error as NodeJS.ErrnoException).code ?? ''))
      throw error;
  }
};
