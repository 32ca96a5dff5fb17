import { lociBehind, type GenotypeInput, type Locus, type LocusId } from '@linewright/heredity';
import {
  type BreedingValue,
  type LinePurpose,
  STARTING_PURPOSE,
  type WorthBasis,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { EvidenceService } from '../carriers/evidence.service.js';
import { PosteriorsService } from '../carriers/posteriors.service.js';
import type { CarrierAnswer } from '../carriers/task.js';
import { LineLoadService } from '../merit/line-load.service.js';
import type { LineInbreedingLoadModel } from '../merit/line-load.model.js';
import { TraitMeritService } from '../merit/trait-merit.service.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { purposeOfLine } from '../stock/purpose-rows.js';
import { traitBasisOf, valueOf } from './trait-basis.js';

/** Fry of a brood that start to swim, and the share of them that lives to sorting, where a line's own broods do not tell: guides without a source. */
const USUAL_FRY = 60;
const USUAL_SURVIVAL = 0.5;
/** Counted broods from which a line's own figures are taken. */
const LEAST_BROODS = 3;

/** How many fry are reckoned with, and whose figures they are. */
export interface BroodFigures {
  readonly fry: number;
  readonly survival: number;
  readonly load: number;
  /** Counted broods of the line behind them; 0 where the built-in guides stand in. */
  readonly broods: number;
}

/** What pairs are judged by: the line's purpose, and what is known of its fish for it. */
export interface LineBasis {
  /** The line whose purpose it is; `null` where none or several are looked at. */
  readonly lineId: string | null;
  /** Version of the purpose; 0 while nobody said it. */
  readonly version: number;
  readonly purpose: LinePurpose;
  readonly worth: WorthBasis;
  readonly figures: BroodFigures;
  /** Traits aimed at of which nothing could be worked out: their ids, with why. */
  readonly notCounted: readonly { readonly traitId: string; readonly reason: string }[];
  /** A long computation that figures are waited from. */
  readonly waiting: ComputationRow | null;
  /** Breeding values of a fish by trait. */
  valuesOf(fishId: string): Readonly<Record<string, BreedingValue>>;
  /** What a fish may carry at the loci that matter, by chances. */
  carriedBy(fishId: string): Readonly<Record<LocusId, GenotypeInput>>;
}

type ValuesOf = (fishId: string) => BreedingValue | null;

/** Brings together what the worth of pairs rests on. */
@Injectable()
export class WorthBasisService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly merit: TraitMeritService,
    private readonly loads: LineLoadService,
    private readonly evidence: EvidenceService,
    private readonly posteriors: PosteriorsService,
  ) {}

  /** @param looks further loci of looks that are asked about. @param own loci that may hide others. */
  async of(
    lineId: string | null,
    looks: readonly LocusId[],
    own: readonly Locus[],
    by: string,
  ): Promise<LineBasis> {
    const { version, content: purpose } =
      lineId === null
        ? { version: 0, content: STARTING_PURPOSE }
        : await purposeOfLine(this.dataSource.manager, lineId);
    const [traits, carriers, figures] = await Promise.all([
      this.traitsOf(purpose, lineId, by),
      this.carriersAt([...lociOf(purpose), ...looks], own, by),
      lineId === null || version === 0 ? usualFigures() : this.figuresOf(lineId, purpose, by),
    ]);
    const { fry, survival, load } = figures;
    return {
      ...{ lineId, version, purpose, figures },
      worth: { purpose, traits: traits.known.map(({ basis }) => basis), fry, survival, load },
      notCounted: traits.notCounted,
      waiting: traits.waiting ?? carriers.waiting,
      valuesOf: (fishId) =>
        Object.fromEntries(
          traits.known.flatMap(({ basis, of }) => {
            const value = of(fishId);
            return value === null ? [] : [[basis.traitId, value]];
          }),
        ),
      carriedBy: (fishId) =>
        Object.fromEntries(
          carriers.found.flatMap(({ locusId, answer }) => {
            const chances = chancesOf(answer, fishId);
            return chances.length === 0 ? [] : [[locusId, chances]];
          }),
        ),
    };
  }

  private async traitsOf(purpose: LinePurpose, lineId: string | null, by: string) {
    const known: { basis: ReturnType<typeof traitBasisOf>; of: ValuesOf }[] = [];
    const notCounted: { traitId: string; reason: string }[] = [];
    let waiting: ComputationRow | null = null;
    for (const { traitId } of purpose.traits) {
      const standing = await this.merit.of(traitId, by);
      const model = standing.answer?.linear ?? null;
      if (standing.waiting !== null) waiting = standing.waiting;
      else if (model === null)
        notCounted.push({
          traitId,
          reason:
            standing.answer?.linearRefusal?.message ?? 'Nothing was worked out of its scores.',
        });
      else
        known.push({
          basis: traitBasisOf(standing.stock, model, lineId),
          of: (fishId) => valueOf(standing.stock, model, fishId),
        });
    }
    return { known, notCounted, waiting };
  }

  private async carriersAt(looks: readonly LocusId[], own: readonly Locus[], by: string) {
    const found: { locusId: LocusId; answer: CarrierAnswer }[] = [];
    let waiting: ComputationRow | null = null;
    if (looks.length === 0) return { found, waiting };
    const stock = await this.evidence.stock();
    for (const locusId of lociBehind([...new Set(looks)], own)) {
      const evidence = stock.byLocus.get(locusId);
      if (evidence === undefined) continue;
      const asked = await this.posteriors.ask(stock, evidence, { kind: 'all' }, by);
      if (asked.answer === null) waiting = asked.waiting;
      else found.push({ locusId, answer: asked.answer });
    }
    return { found, waiting };
  }

  /** The line's own counts from swimming fry to sorting, where enough broods were counted at both. */
  private async figuresOf(lineId: string, purpose: LinePurpose, by: string): Promise<BroodFigures> {
    const load = await this.loads.of(lineId, by);
    return withRoomFor(broodFigures(load), purpose);
  }
}

const usualFigures = (): BroodFigures => ({
  ...{ fry: USUAL_FRY, survival: USUAL_SURVIVAL, load: 0, broods: 0 },
});

const broodFigures = ({ stages }: LineInbreedingLoadModel): BroodFigures => {
  const sorting = stages.find(({ stage }) => stage === 'sorting');
  if (sorting === undefined || sorting.points.length < LEAST_BROODS) return usualFigures();
  const counts = sorting.points.map(({ counted }) => counted).toSorted((a, b) => a - b);
  const sum = (of: 'counted' | 'survivors'): number =>
    sorting.points.reduce((total, point) => total + point[of], 0);
  const cost = sorting.costs.find(({ column }) => column === 'young');
  return {
    fry: counts[Math.floor((counts.length - 1) / 2)]!,
    survival: sum('survivors') / sum('counted'),
    load: cost?.verdict === 'costs' ? cost.perGamete : 0,
    broods: sorting.points.length,
  };
};

/** No more fry than there is room for, where the purpose says how many can be raised in all. */
const withRoomFor = (figures: BroodFigures, { fry, broods }: LinePurpose): BroodFigures =>
  fry === null || figures.survival === 0
    ? figures
    : { ...figures, fry: Math.min(figures.fry, Math.floor(fry / broods / figures.survival)) };

const lociOf = ({ looks }: LinePurpose): LocusId[] =>
  looks.flatMap(({ look }) => Object.keys(look.show));

const chancesOf = ({ all, genotypes = [] }: CarrierAnswer, fishId: string) =>
  (all?.[fishId] ?? []).flatMap((probability, k) =>
    probability > 0 ? [{ genotype: genotypes[k]!, probability }] : [],
  );
