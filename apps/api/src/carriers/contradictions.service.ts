import { Injectable } from '@nestjs/common';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toComputation } from '../jobs/computation.mapper.js';
import type { ContradictionModel, ContradictionsModel } from './contradictions.model.js';
import type { EvidenceRecord, StockEvidence } from './evidence.js';
import { EvidenceService } from './evidence.service.js';
import { PosteriorsService } from './posteriors.service.js';
import { RecordLinks } from './record-links.js';
import { type FoundContradiction, MOST_CONTRADICTIONS } from './task.js';

@Injectable()
export class ContradictionsService {
  constructor(
    private readonly evidence: EvidenceService,
    private readonly posteriors: PosteriorsService,
    private readonly links: RecordLinks,
  ) {}

  async find(
    about: { fishId: string | null; spawnId: string | null },
    person: SignedInPerson,
    context: object,
  ): Promise<ContradictionsModel> {
    const stock = await this.evidence.stock();
    const found: ContradictionModel[] = [];
    const waiting: ContradictionsModel['waiting'] = [];
    const moreAt: string[] = [];
    for (const evidence of stock.byLocus.values()) {
      const asked = await this.posteriors.ask(
        stock,
        evidence,
        { kind: 'contradiction' },
        person.name,
      );
      if (asked.waiting !== null) waiting.push(toComputation(asked.waiting));
      const contradictions = asked.answer?.contradictions ?? [];
      if (contradictions.length >= MOST_CONTRADICTIONS) moreAt.push(evidence.locus.name);
      for (const one of contradictions) {
        const records = one.records.flatMap(
          (id) => evidence.records.find((record) => record.evidence.id === id) ?? [],
        );
        if (!concerns(records, one, about)) continue;
        found.push({
          locusId: evidence.locus.id,
          name: evidence.locus.name,
          smallest: one.smallest,
          restsOnFounders: one.restsOnFounders,
          records: await Promise.all(
            records.map((record) => this.toRecord(stock, record, context)),
          ),
          parentages: await Promise.all(
            nearest(records, one).map(async ([young, sire, dam]) => ({
              young: await this.links.fish(young, context),
              sire: await this.links.fish(sire === 'unknown' ? null : sire, context),
              dam: await this.links.fish(dam === 'unknown' ? null : dam, context),
            })),
          ),
        });
      }
    }
    return { found, moreAt, lociLookedAt: stock.byLocus.size, waiting };
  }

  private async toRecord(stock: StockEvidence, record: EvidenceRecord, context: object) {
    const [first] = record.fishIds;
    return {
      recordId: record.recordId,
      text: record.text,
      remedy: remedyFor(record, stock),
      fish: await this.links.fish(record.spawnId === null ? first : null, context),
      spawn: await this.links.spawn(record.spawnId, context),
    };
  }
}

/** Of all parentages between the fish of a clash and their forebears, those of the fish themselves and of their young. */
const nearest = (
  records: readonly EvidenceRecord[],
  found: FoundContradiction,
): FoundContradiction['parentages'] => {
  const fish = new Set(records.flatMap((one) => one.fishIds));
  const own = found.parentages.filter(([young]) => fish.has(young));
  return (own.length > 0 ? own : found.parentages).slice(-8);
};

const concerns = (
  records: readonly EvidenceRecord[],
  found: FoundContradiction,
  about: { fishId: string | null; spawnId: string | null },
): boolean => {
  const { fishId, spawnId } = about;
  if (fishId === null && spawnId === null) return true;
  const fish = new Set([...records.flatMap((one) => one.fishIds), ...found.parentages.flat()]);
  return (
    (fishId !== null && fish.has(fishId)) ||
    (spawnId !== null && records.some((one) => one.spawnId === spawnId))
  );
};

const remedyFor = (record: EvidenceRecord, stock: StockEvidence): string => {
  const tags = record.fishIds.map((id) => stock.tags.get(id) ?? id);
  if (record.kind === 'class_count')
    return `Count the brood of ${tags.join(' and ')} again, and rule out stray fry of another spawn.`;
  if (record.kind === 'genotype')
    return `Ask what the genotype of ${tags.join()} rests on, and correct or withdraw it.`;
  return `Look at ${tags.join()} again, and correct or withdraw what was written down.`;
};
