import type { CarrierEvidence, CarrierModel } from '@linewright/heredity';
import type { Pedigree } from '@linewright/pedigree';
import type { PreparedTask } from './carrier-task.js';
import { LastUsed } from '../jobs/last-used.js';

/** So many records are put in or taken out; a stock that changed more is worked out from the beginning. */
const MOST_CHANGED = 20;

/** The records, each by all it says. */
type Records = ReadonlyMap<string, CarrierEvidence>;

interface State {
  readonly records: Records;
  readonly model: CarrierModel;
}

interface Held {
  readonly base: string;
  readonly pedigree: Pedigree;
  /** As built: a later state is made from it where it cannot be from the latest. */
  readonly built: State;
  latest: State;
}

const written = (records: readonly CarrierEvidence[]): Records =>
  new Map(records.map((one) => [JSON.stringify(one), one]));

/**
 * Exact models of the whole stock kept ready in this thread, the last used of each locus. A question about the same pedigree,
 * locus and founders whose records differ in a few is answered from one by putting in and taking out those alone. A look at a
 * young fish, for one, changes the record of its brood as well, in whose count it was. What is held here is a
 * shortcut and nothing else: a thread without it builds the model and comes to the same answer.
 */
export class PreparedModels {
  private readonly held: LastUsed<Held>;

  constructor(most: number) {
    this.held = new LastUsed(most);
  }

  keep(task: PreparedTask, pedigree: Pedigree, model: CarrierModel): void {
    if (model.method.kind !== 'exact') return;
    const built = { records: written(task.evidence), model };
    this.held.keep(task.locus.id, { base: task.base, pedigree, built, latest: built });
  }

  /**
   * The model for a task's records, or null when it would have to be built.
   * @throws HeredityError `EVIDENCE_IMPOSSIBLE` when the records added cannot be true.
   */
  find(task: PreparedTask): { model: CarrierModel; pedigree: Pedigree } | null {
    const held = this.held.get(task.locus.id);
    if (held?.base !== task.base) return null;
    const records = written(task.evidence);
    const model = this.from(held.latest, records) ?? this.from(held.built, records);
    if (model === null) return null;
    held.latest = { records, model };
    return { model, pedigree: held.pedigree };
  }

  private from({ records, model }: State, wanted: Records): CarrierModel | null {
    const gone = [...records].flatMap(([text, { id }]) => (wanted.has(text) ? [] : [id]));
    const added = [...wanted].flatMap(([text, one]) => (records.has(text) ? [] : [one]));
    if (gone.length + added.length > MOST_CHANGED) return null;
    if (!gone.every((id) => model.takesOutQuickly(id))) return null;
    if (!added.every((one) => model.takesInQuickly(one))) return null;
    const rest = gone.reduce((now, id) => now.withoutRecord(id), model);
    return added.reduce((now, one) => now.withRecord(one), rest);
  }
}
