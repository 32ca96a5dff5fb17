import { Injectable } from '@nestjs/common';
import type { PathExplanation } from '@linewright/kinship';
import { FishLoader } from '../fish/fish.loader.js';
import { toFish } from '../fish/fish.mapper.js';
import type { FishModel } from '../fish/fish.model.js';
import { notFound } from '../errors/request-error.js';
import type { InbreedingExplanationModel } from './kinship.model.js';
import { type PedigreeState, PedigreeService } from './pedigree.service.js';

export const LONGEST_LISTING = 500;

/** Turns a lib's path listing (indices) into what the schema shows (fish). */
@Injectable()
export class ExplanationMapper {
  constructor(
    private readonly pedigrees: PedigreeService,
    private readonly fish: FishLoader,
  ) {}

  async ofFish(id: string, limit: number, context: object): Promise<InbreedingExplanationModel> {
    const most = Math.min(limit, LONGEST_LISTING);
    const { state, explanation } = await this.pedigrees.pathsOf(id, most);
    return this.toModel(state, explanation, most, context);
  }

  async ofBrood(
    sireId: string,
    damId: string,
    limit: number,
    context: object,
  ): Promise<InbreedingExplanationModel> {
    const most = Math.min(limit, LONGEST_LISTING);
    const { state, explanation } = await this.pedigrees.pathsOfBrood(sireId, damId, most);
    return this.toModel(state, explanation, most, context);
  }

  private async toModel(
    state: PedigreeState,
    explanation: PathExplanation | null,
    mostAncestors: number,
    context: object,
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
      };
    }
    const at = (index: number): Promise<FishModel> => this.at(state, index, context);
    const paths = await Promise.all(
      explanation.paths.map(async (path) => ({
        ancestor: await at(path.ancestor),
        fish: await Promise.all(path.fish.map(at)),
        sireSteps: path.sireSteps,
        damSteps: path.damSteps,
        ancestorInbreeding: path.ancestorInbreeding,
        contribution: path.contribution,
      })),
    );
    return {
      coefficient: explanation.coefficient,
      complete: explanation.complete,
      pathCount: explanation.pathCount,
      listedCount: paths.length,
      explainedShare: explanation.explained,
      paths,
      byAncestor: await Promise.all(
        explanation.ancestors.slice(0, mostAncestors).map(async (share) => ({
          ancestor: await at(share.ancestor),
          pathCount: share.pathCount,
          contribution: share.contribution,
        })),
      ),
    };
  }

  private async at(state: PedigreeState, index: number, context: object): Promise<FishModel> {
    const id = state.pedigree.ids[index] ?? '';
    const row = await this.fish.byId.of(context).load(id);
    if (row === null) throw notFound('fish', id);
    return toFish(row);
  }
}
