import { z } from 'zod';
import { contentShape } from '../share-file.js';
import { LINE_FILE, LINE_FILE_VERSION, RECORDS } from './manifest.js';

/**
 * The JSON Schema (draft 2020-12) of the records in a line's file, from the shapes that a file is read by. What a schema cannot say (an id
 * twice, a reference to nothing, a rule of a form) is checked when it is read.
 */
export const lineFileSchema = (): object =>
  z.toJSONSchema(
    z
      .object({ format: z.literal(LINE_FILE), version: z.literal(LINE_FILE_VERSION) })
      .extend(contentShape(LINE_FILE_VERSION).omit({ agreed: true }).shape)
      .meta({ title: `${RECORDS} in the file of a line` }),
    { io: 'input', unrepresentable: 'any', target: 'draft-2020-12' },
  );
