import type { Pedigree } from '@linewright/pedigree';
import { checkIndex } from './checks.js';
import {
  readFounderRelationship,
  type FounderBlock,
  type FounderRelationship,
} from './founder-relationship.js';
import { knownInbreeding } from './inbreeding.js';
import { PairTrace, type FounderShares } from './pair-trace.js';
import { withinFamilyVariance } from './within-family-variance.js';

export interface CoancestryOptions {
  /** Founders that are inbred or related; all others are neither. */
  readonly founders?: FounderRelationship;
}

interface Tracer {
  relationship(a: number, b: number): number;
}

const remembered = new WeakMap<Pedigree, Tracer>();

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
  if (founders !== undefined) return makeTracer(pedigree, founders);
  let tracer = remembered.get(pedigree);
  if (tracer === undefined) {
    tracer = makeTracer(pedigree, undefined);
    remembered.set(pedigree, tracer);
  }
  return tracer;
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

function founderShares({ positionOf, founders, relationship }: FounderBlock): FounderShares {
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
