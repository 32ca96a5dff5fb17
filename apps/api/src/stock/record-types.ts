import type { RecordType } from './record-store.js';
import { SpawnRow } from './rows/spawn.entity.js';

export const spawnRecord: RecordType<SpawnRow> = { target: SpawnRow, kind: 'spawn', word: 'spawn' };
