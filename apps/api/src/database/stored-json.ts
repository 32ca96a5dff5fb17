import { Logger } from '@nestjs/common';
import type { ValueTransformer } from 'typeorm';
import type { z } from 'zod';

const log = new Logger('records');
/** Told once a run: a list of a thousand rows would say it a thousand times. */
const told = new Set<string>();

/**
 * Reads a stored structure that some older program or file may have spoilt: what does not fit is told in the log and stands
 * as `instead` gives it, so that one bad row never keeps a whole page from opening. Writing changes nothing.
 */
export const storedJson = <T>(
  what: string,
  shape: z.ZodType,
  instead: (value: unknown, why: string) => T,
): ValueTransformer => ({
  to: (value: unknown) => value,
  from: (value: unknown) => {
    if (value === null || value === undefined) return value;
    const read = shape.safeParse(value);
    if (read.success) return value;
    const [issue] = read.error.issues;
    const place = issue === undefined || issue.path.length === 0 ? '' : `${issue.path.join('.')}: `;
    const why = `${place}${issue?.message ?? 'it does not fit'}`;
    const line = `A stored ${what} cannot be used (${why}); the rest goes on without it.`;
    if (!told.has(line)) log.warn(line);
    if (told.size < 100) told.add(line);
    return instead(value, why);
  },
});
