import type { CarrierEvidence, CarrierModel } from '@linewright/heredity';
import type { Pedigree } from '@linewright/pedigree';
import type { CarrierTask } from './task.js';

/** So many records are added to one model; a stock that changed more is worked out from the beginning. */
const MOST_ADDED = 20;

interface State {
  readonly records: ReadonlySet<string>;
  readonly model: CarrierModel;
}

interface Held {
  readonly base: string;
  readonly pedigree: Pedigree;
  /** As built: every later state is made from it, so that a record put right or withdrawn again does no harm. */
  readonly built: State;
  latest: State;
}

const written = (records: readonly CarrierEvidence[]): string[] =>
  records.map((one) => JSON.stringify(one));

/**
 * Exact models of the whole stock kept ready in this thread, the last used of each locus. A question about the same pedigree,
 * locus and founders with further records is answered from one by taking in those records alone. What is held here is a
 * shortcut and nothing else: a thread without it builds the model and comes to the same answer.
 */
export class PreparedModels {
  private readonly held = new Map<string, Held>();

  constructor(private readonly most: number) {}

  keep(task: CarrierTask, pedigree: Pedigree, model: CarrierModel): void {
    if (model.method.kind !== 'exact') return;
    const built = { records: new Set(written(task.evidence)), model };
    const { id } = task.locus;
    this.held.delete(id);
    this.held.set(id, { base: task.base, pedigree, built, latest: built });
    const [oldest] = this.held.keys();
    if (this.held.size > this.most && oldest !== undefined) this.held.delete(oldest);
  }

  /**
   * The model for a task's records, or null when it would have to be built.
   * @throws HeredityError `EVIDENCE_IMPOSSIBLE` when the records added cannot be true.
   */
  find(task: CarrierTask): { model: CarrierModel; pedigree: Pedigree } | null {
    const held = this.held.get(task.locus.id);
    if (held?.base !== task.base) return null;
    const model = this.from(held.latest, task) ?? this.from(held.built, task);
    if (model === null) return null;
    held.latest = { records: new Set(written(task.evidence)), model };
    return { model, pedigree: held.pedigree };
  }

  private from({ records, model }: State, task: CarrierTask): CarrierModel | null {
    const keys = written(task.evidence);
    const added = task.evidence.filter((_, i) => !records.has(keys[i] ?? ''));
    if (keys.length - added.length !== records.size || added.length > MOST_ADDED) return null;
    if (!added.every((one) => model.takesInQuickly(one))) return null;
    return added.reduce((now, one) => now.withRecord(one), model);
  }
}
