import type { SharedKind } from './share-fields.js';
import type { ShareFile } from './share-file.js';
import type { SharedRecord } from './share-record.js';

/** Names records the way people know them: a tag, a code, or whose record it is. */
export const labeller = (
  records: ShareFile['records'],
): ((kind: SharedKind, record: SharedRecord) => string) => {
  const names = new Map<unknown, string>();
  for (const { id, ...record } of [...records.fish, ...records.spawns] as SharedRecord[]) {
    names.set(id, String(record['tag']));
  }
  for (const { id, ...record } of [
    ...records.traits,
    ...records.scoreSheets,
    ...records.lines,
  ] as SharedRecord[]) {
    names.set(id, String(record['name']));
  }
  const name = (id: unknown): string => names.get(id) ?? String(id);
  return ({ group }, record) => {
    switch (group) {
      case 'traits':
      case 'scoreSheets':
        return String(record['name']);
      case 'lines':
      case 'ownLoci':
        return (record['code'] ?? record['locusId']) as string;
      case 'sheetScorings':
        return `${name(record['fishId'])}, ${name(record['sheetId'])}, ${String(record['scoredOn'])}`;
      case 'phenotypes':
        return `${name(record['fishId'])}, ${String(record['locusId'])}: ${String(record['phenotype'])}`;
      case 'careRecords':
        return `${name(record['spawnId'])}, ${String(record['step']).replaceAll('_', ' ')}`;
      case 'waterReadings':
        return `${name(record['spawnId'])}, ${String(record['takenAt']).slice(0, 10)}`;
      case 'fish':
      case 'fishClaims':
      case 'spawns':
        return String(record['tag']);
      case 'pairings':
        return `${name(record['sireId'])} × ${name(record['damId'])}`;
      case 'scores':
        return `${name(record['fishId'])}, ${name(record['traitId'])}, ${String(record['scoredOn'])}`;
      case 'genotypes':
      case 'locusSettings':
        return `${name(record['fishId'] ?? record['lineId'])}, ${String(record['locusId'])}`;
      case 'spawnEvents':
      case 'spawnLosses':
      case 'fishDeals':
        return `${name(record['spawnId'] ?? record['fishId'])}, ${String(record['kind']).replaceAll('_', ' ')}`;
      case 'spawnCounts':
        return `${name(record['spawnId'])}, ${String(record['stage']).replaceAll('_', ' ')}`;
      case 'photos':
      case 'showResults':
        return `${name(record['fishId'] ?? record['spawnId'])}, ${(record['show'] as string | undefined) ?? 'picture'}`;
      case 'carePlans':
        return `${name(record['lineId'])}, ${String(record['name'])}`;
      case 'handOvers':
        return `${String(record['tag'])}, to ${String(record['toName'])}`;
      case 'classCounts':
        return `${name(record['spawnId'])}, ${String(record['phenotype'])}`;
    }
  };
};
