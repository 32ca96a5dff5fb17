import { Injectable } from '@nestjs/common';
import type { PathExplanation } from '@linewright/kinship';
import { notFound } from '../errors/request-error.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { FishNames } from './fish-names.js';
import type { InbreedingExplanationModel } from './kinship.model.js';
import { type PedigreeState, PedigreeService, basisIn } from './pedigree.service.js';

export const LONGEST_LISTING = 500;

/** Turns a lib's path listing (indices) into what the schema shows (fish). */
@Injectable()
export class ExplanationMapper {
  constructor(
    private readonly pedigrees: PedigreeService,
    private readonly names: FishNames,
  ) {}

  async ofFish(id: string, limit: number): Promise<InbreedingExplanationModel> {
    const most = Math.min(limit, LONGEST_LISTING);
    const { state, explanation } = await this.pedigrees.pathsOf(id, most);
    return this.toModel(state, explanation, most);
  }

  async ofBrood(sireId: string, damId: string, limit: number): Promise<InbreedingExplanationModel> {
    const most = Math.min(limit, LONGEST_LISTING);
    const { state, explanation } = await this.pedigrees.pathsOfBrood(sireId, damId, most);
    return this.toModel(state, explanation, most);
  }

  private async toModel(
    state: PedigreeState,
    explanation: PathExplanation | null,
    mostAncestors: number,
  ): Promise<InbreedingExplanationModel> {
    if (explanation === null) {
      return {
        coefficient: 0,
        complete: true,
        pathCount: 0,
        listedCount: 0,
        explainedShare: 1,
        paths: [],
        byAncestor: [],
        ancestorCount: 0,
      };
    }
    const shares = explanation.ancestors.slice(0, mostAncestors);
    const shown = [
      ...explanation.paths.flatMap((path) => [path.ancestor, ...path.fish]),
      ...shares.map(({ ancestor }) => ancestor),
    ];
    const ids = state.pedigree.ids;
    const named = await this.names.of([...new Set(shown.map((i) => ids[i] ?? ''))]);
    const at = (index: number): NamedFishModel => {
      const id = ids[index] ?? '';
      const one = named.get(id);
      if (one === undefined) throw notFound('fish', id);
      return one;
    };
    const paths = explanation.paths.map((path) => ({
      ancestor: at(path.ancestor),
      fish: Array.from(path.fish, at),
      sireSteps: path.sireSteps,
      damSteps: path.damSteps,
      ancestorInbreeding: path.ancestorInbreeding,
      ancestorBasis: basisIn(state, path.ancestor),
      contribution: path.contribution,
    }));
    return {
      coefficient: explanation.coefficient,
      complete: explanation.complete,
      pathCount: explanation.pathCount,
      listedCount: paths.length,
      explainedShare: explanation.explained,
      paths,
      byAncestor: shares.map((share) => ({
        ancestor: at(share.ancestor),
        pathCount: share.pathCount,
        contribution: share.contribution,
      })),
      ancestorCount: explanation.ancestors.length,
    };
  }

  /** Why an F that these fish lead to is not wholly known; `null` when it is. */
  async whyUncertain(fishIds: readonly string[]): Promise<string | null> {
    const places = await Promise.all(fishIds.map((id) => this.pedigrees.index(id)));
    const [first] = places;
    if (first === undefined) return null;
    const behind = this.pedigrees.unknownBehind(
      first.state,
      places.map(({ index }) => index),
    );
    if (behind.length === 0) return null;
    const nearest = behind.slice(-MOST_NAMED).reverse();
    const named = await this.names.of(nearest);
    const tags = nearest.map((id) => named.get(id)?.tag ?? id);
    const more = behind.length - tags.length;
    const whose = `${tags.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
    return `Not all parents are known, of ${whose}. Unknown parents count as unrelated, so the true F may be higher. If you know that such a fish is unrelated to the others, say so on its page.`;
  }
}

const MOST_NAMED = 4;
