import type { YoungToKeep } from '@linewright/mating';
import { toComputation } from '../jobs/computation.mapper.js';
import { toNotCounted } from '../pairing/worth.mapper.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import type { BroodKeepingModel, NumberToKeepModel, YoungToKeepModel } from './keeping.model.js';
import type { KeepingOfBrood } from './keeping.service.js';
import type { NumberToKeep } from './how-many.service.js';

export const toBroodKeeping = (told: KeepingOfBrood): BroodKeepingModel => ({
  ...{ lineId: told.lineId, purposeVersion: told.version, hasAims: told.hasAims },
  number: told.number === null ? null : toNumber(told.number),
  kept: told.kept,
  ...{ matesAre: told.mates.are, mateCount: told.mates.count, mateTotal: told.mates.of },
  living: told.living,
  kinshipWithLine: told.answer?.kinshipWithLine ?? null,
  alleles: told.alleles.map(({ locusId, alleleId, locus, symbol, name, carrying, sole }) => ({
    ...{ locusId, alleleId, symbol, name, locusName: locus.name, lastKnown: sole !== null },
    carriers: [...carrying.values()].reduce((sum, chance) => sum + chance, 0),
  })),
  leftOut: told.leftOut,
  notCounted: toNotCounted(told.notCounted, told.traits),
  waiting: told.waiting === null ? null : toComputation(told.waiting),
  ...{ problem: told.problem, told },
});

const toNumber = ({ toKeep, ...rest }: NumberToKeep): NumberToKeepModel => ({ ...rest, ...toKeep });

export const toYoung = (
  { worth, standardError, place, of, advice, alleles }: YoungToKeep,
  fish: NamedFishModel,
): YoungToKeepModel => ({
  ...{ fish, worth, standardError, place, of, advice },
  alleles: [...alleles],
});
