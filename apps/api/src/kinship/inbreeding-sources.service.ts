import { Injectable } from '@nestjs/common';
import {
  ancestralInbreeding,
  inbreedingOrigins,
  partialInbreedingByFounder,
  recentInbreeding,
} from '@linewright/kinship';
import { type Pedigree, generationDepth, subset, withAncestors } from '@linewright/pedigree';
import { DataSource } from 'typeorm';
import { PedigreeService } from './pedigree.service.js';
import type { InbreedingSourcesModel } from './inbreeding-sources.model.js';
import { largestFirst } from './largest-first.js';
import { namedFish } from './named-fish.js';

/** Partial inbreeding climbs every pair of ancestors: above this it would hold a request up for seconds. */
const MOST_ANCESTORS = 3_000;
const MOST_ORIGINS = 50;
const MOST_GENERATIONS = 12;

/** Divides a fish's F by founder, by origin and by age. */
@Injectable()
export class InbreedingSourcesService {
  constructor(
    private readonly pedigrees: PedigreeService,
    private readonly dataSource: DataSource,
  ) {}

  async of(fishId: string): Promise<InbreedingSourcesModel> {
    const { state, index } = await this.pedigrees.index(fishId);
    const coefficient = state.inbreeding[index] ?? 0;
    const pedigree = subset(state.pedigree, withAncestors(state.pedigree, [index]));
    const fish = pedigree.indexOf(fishId);
    const byFounder = pedigree.size > MOST_ANCESTORS ? null : founderParts(pedigree, fish);
    const { origins, meanGenerations, complete } = inbreedingOrigins(pedigree, fish);
    const shown = origins.slice(0, MOST_ORIGINS);
    const named = await namedFish(
      this.dataSource,
      [
        ...(byFounder ?? []).map((part) => part.founder),
        ...shown.map(({ ancestor }) => ancestor),
      ].map((each) => pedigree.ids[each] ?? ''),
    );
    const at = (each: number) => named.get(pedigree.ids[each] ?? '')!;
    return {
      coefficient,
      byFounder:
        byFounder === null
          ? null
          : largestFirst(
              byFounder.map(({ founder, unknownParent, contribution }) => ({
                fish: at(founder),
                unknownParent,
                contribution,
              })),
              ({ contribution }) => contribution,
              ({ fish: founder }) => founder,
            ),
      byOrigin: largestFirst(
        shown.map(({ ancestor, contribution, meanGenerations: mean }) => ({
          ancestor: at(ancestor),
          contribution,
          meanGenerations: mean,
        })),
        ({ contribution }) => contribution,
        ({ ancestor }) => ancestor,
      ),
      originCount: origins.length,
      meanGenerations,
      complete,
      byGenerations: coefficient === 0 ? [] : byGenerations(pedigree, fish, coefficient),
      ancestralInbreeding: ancestralInbreeding(pedigree)[fish] ?? 0,
    };
  }
}

function founderParts(pedigree: Pedigree, fish: number) {
  const { sources, values } = partialInbreedingByFounder(pedigree, [fish]);
  return sources
    .map((source, k) => ({ ...source, contribution: values[k] ?? 0 }))
    .filter(({ contribution }) => contribution > 0);
}

/** Ends where the whole F is reached. */
function byGenerations(pedigree: Pedigree, fish: number, whole: number): number[] {
  const depth = generationDepth(pedigree, { hiddenCount: true })[fish] ?? 0;
  const found: number[] = [];
  for (let back = 1; back <= Math.min(depth, MOST_GENERATIONS); back++) {
    const recent = recentInbreeding(pedigree, [fish], back)[0]?.recent ?? 0;
    found.push(recent);
    if (recent >= whole * (1 - 1e-12)) break;
  }
  return found;
}
