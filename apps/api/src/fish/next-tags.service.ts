import { type TagForm, tagForm, tagsAfter } from '@linewright/repair';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import { knownTags, type TaggedKind, tagsTaken } from '../stock/tag-rows.js';

const MOST_TAGS = 50;
/** Tags in use that stand in the way of those that follow: after so many rounds of them nothing is offered. */
const MOST_ROUNDS = 20;

/** How tags of a line begin where its keeper has none yet: fish "T-01", spawns "T26-01". */
const firstForm = (kind: TaggedKind, code: string, today: string): TagForm => ({
  ...{ digits: 2, after: '', last: 0 },
  before: kind === 'fish' ? `${code}-` : `${code}${today.slice(2, 4)}-`,
});

/** The tags that follow, as whoever asks numbers. An offer: nothing is held, and saving checks it. */
@Injectable()
export class NextTagsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /** None where no tag tells how they are numbered, nor a line with what they begin. */
  async next(
    kind: TaggedKind,
    lineId: string | null,
    number: number,
    person: SignedInPerson,
  ): Promise<string[]> {
    if (number < 1 || number > MOST_TAGS) {
      throw fieldError({
        field: 'number',
        message: `"${number}" tags at once: ask for 1 to ${MOST_TAGS}.`,
      });
    }
    const { manager } = this.dataSource;
    const line = lineId === null ? null : await this.records.find(manager, lineRecord, lineId);
    const known = await knownTags(manager, kind, { personId: person.id, lineId });
    const [code, today] = [line?.code ?? null, this.clock.today()];
    const form =
      tagForm(known, { code, today }) ?? (code === null ? null : firstForm(kind, code, today));
    return form === null ? [] : this.free(kind, form, number, person.id);
  }

  private async free(
    kind: TaggedKind,
    form: TagForm,
    number: number,
    personId: string,
  ): Promise<string[]> {
    const offered: string[] = [];
    const { last } = form;
    for (let round = 0; round < MOST_ROUNDS && offered.length < number; round += 1) {
      const following = tagsAfter({ ...form, last: last + round * MOST_TAGS }, MOST_TAGS);
      const taken = await tagsTaken(this.dataSource.manager, kind, personId, following);
      offered.push(...following.filter((tag) => !taken.has(tag)));
    }
    return offered.slice(0, number);
  }
}
