import type { RecordType } from '../database/record-store.js';
import { SpawnRow } from './spawn.entity.js';

export const spawnRecord: RecordType<SpawnRow> = { target: SpawnRow, kind: 'spawn', word: 'spawn' };
