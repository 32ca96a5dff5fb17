import type { Pedigree } from '@linewright/pedigree';
import { checkIndex } from './checks.js';
import {
  readFounderRelationship,
  type FounderBlock,
  type FounderOptions,
  type FounderRelationship,
} from './founder-relationship.js';
import { knownInbreeding, PerPedigree } from './inbreeding.js';
import { PairTrace, type FounderShares } from './pair-trace.js';
import { withinFamilyVariance } from './within-family-variance.js';

export type CoancestryOptions = FounderOptions;

interface Tracer {
  relationship(a: number, b: number): number;
}

const remembered = new PerPedigree<Tracer>();

/**
 * Coancestry of two individuals: the probability that a gene drawn from each at one locus is identical by descent. It is the
 * inbreeding coefficient their young would have, half the additive relationship, and (1 + F) / 2 for an individual with
 * itself.
 *
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 * Cost: the first call on a pedigree computes all F and keeps them with the pedigree; later ones visit the ancestors of the
 * two only.
 * @example
 * coancestry(pedigree, pedigree.indexOf('brother'), pedigree.indexOf('sister')); // 0.25
 */
export function coancestry(
  pedigree: Pedigree,
  a: number,
  b: number,
  options: CoancestryOptions = {},
): number {
  checkIndex(pedigree, a);
  checkIndex(pedigree, b);
  return tracerOf(pedigree, options.founders).relationship(a, b) / 2;
}

function tracerOf(pedigree: Pedigree, founders: FounderRelationship | undefined): Tracer {
  return remembered.get(pedigree, founders, () => makeTracer(pedigree, founders));
}

function makeTracer(pedigree: Pedigree, founders: FounderRelationship | undefined): Tracer {
  const variance = withinFamilyVariance(pedigree, knownInbreeding(pedigree, founders));
  const block = readFounderRelationship(pedigree, founders);
  const shares = block === undefined ? undefined : founderShares(block);
  const trace = new PairTrace();
  trace.reserve(pedigree.size);
  return {
    relationship: (a, b) => trace.relationship(a, b, pedigree.sire, pedigree.dam, variance, shares),
  };
}

export function founderShares({ positionOf, founders, relationship }: FounderBlock): FounderShares {
  const found: { position: number; first: number; second: number }[] = [];
  return {
    take(individual, first, second) {
      const position = positionOf.get(individual);
      if (position === undefined) return false;
      found.push({ position, first, second });
      return true;
    },
    sum() {
      let sum = 0;
      for (const a of found) {
        for (const b of found) {
          sum += a.first * b.second * relationship[a.position * founders.length + b.position]!;
        }
      }
      found.length = 0;
      return sum;
    },
  };
}
