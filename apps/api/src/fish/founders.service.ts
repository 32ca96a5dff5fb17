import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { trimmed } from '../database/given.js';
import { orTaken } from '../database/unique.js';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { usualPlace } from '../stock/fish-place.js';
import { expectLines } from '../stock/line-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord, spawnRecord } from '../stock/record-types.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { tagsTaken } from '../stock/tag-rows.js';
import { checkedTag } from './fish.service.js';
import type { FounderInput, RecordFoundersInput } from './founders.inputs.js';

const MOST_FOUNDERS = 50;

/** Fish that came together, from a shop or a friend: all of them saved, or none. */
@Injectable()
export class FoundersService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  record(input: RecordFoundersInput, person: SignedInPerson): Promise<FishRow[]> {
    const save = this.dataSource.transaction(async (m) => {
      const tags = await this.checked(m, input, person);
      const spawn = input.relation === 'SIBS' ? await this.broodOf(m, input, tags, person) : null;
      const made: FishRow[] = [];
      for (const [at, fish] of input.fish.entries())
        made.push(await this.oneOf(m, input, { ...fish, tag: tags[at]! }, spawn, person));
      return made;
    });
    // Two who save at once: the second is told so, and what is typed stays.
    return orTaken(
      save,
      'fish_tag_once',
      'fish',
      'One of these tags was put on another of your fish just now: choose another.',
    );
  }

  /** The tags as they are saved; every fault is told at once, beside the fish it is of. */
  private async checked(
    m: EntityManager,
    { fish, relation, lineId, hatchDate }: RecordFoundersInput,
    person: SignedInPerson,
  ): Promise<string[]> {
    const checks = new FieldChecks();
    if (fish.length < 1 || fish.length > MOST_FOUNDERS)
      checks.refuse('fish', `"${fish.length}" fish at once: give 1 to ${MOST_FOUNDERS}.`);
    if (relation === 'SIBS' && fish.length < 2)
      checks.refuse(
        'relation',
        'Sibs are two or more fish: add the others, or choose another answer.',
      );
    if (hatchDate) checks.keepNow(() => expectDayHappened(this.clock, 'hatchDate', hatchDate));
    checks.expectNone();
    if (lineId) await expectLines(m, [lineId]);
    const tags = fish.map(({ tag }, at) => this.tagOf(checks, tag, `fish.${at}.tag`));
    await this.refuseTaken(m, checks, fish, tags, person);
    checks.expectNone();
    return tags;
  }

  private tagOf(checks: FieldChecks, tag: string, field: string): string {
    try {
      return checkedTag(tag);
    } catch (error) {
      checks.refuse(field, (error as Error).message);
      return '';
    }
  }

  private async refuseTaken(
    m: EntityManager,
    checks: FieldChecks,
    fish: readonly FounderInput[],
    tags: readonly string[],
    person: SignedInPerson,
  ): Promise<void> {
    const known = await Promise.all(
      fish.map(async ({ id }) =>
        id ? (await this.records.known(m, fishRecord, id)) !== null : false,
      ),
    );
    const taken = await tagsTaken(m, 'fish', person.id, tags);
    for (const [at, tag] of tags.entries()) {
      // Sent again after a lost answer: the tag is on this fish.
      if (known[at] === true || tag === '') continue;
      if (tags.indexOf(tag) !== at)
        checks.refuse(`fish.${at}.tag`, `The tag "${tag}" stands here twice: choose another.`);
      else if (taken.has(tag))
        checks.refuse(
          `fish.${at}.tag`,
          `The tag "${tag}" is on another of your fish, and tags are never reused: choose another.`,
        );
    }
  }

  /** Young of one spawn are sibs though nobody knows the parents: they get one, tagged by the first of them. */
  private async broodOf(
    m: EntityManager,
    { lineId, hatchDate, fish }: RecordFoundersInput,
    [tag]: readonly string[],
    person: SignedInPerson,
  ): Promise<SpawnRow> {
    const [first] = fish;
    const before = first?.id ? await this.records.known(m, fishRecord, first.id) : null;
    if (before?.spawnId != null) return this.records.find(m, spawnRecord, before.spawnId);
    const row = {
      id: randomUUID(),
      personId: person.id,
      tag: `${tag} sibs`,
      lineId: lineId ?? null,
      hatchDate: hatchDate ?? null,
    };
    if ((await tagsTaken(m, 'spawn', person.id, [row.tag])).size > 0)
      throw fieldError({
        field: 'fish.0.tag',
        message: `There is a spawn "${row.tag}" already: choose another tag for the first of them.`,
      });
    return this.records.create<SpawnRow>(m, spawnRecord, row, person.name);
  }

  private oneOf(
    m: EntityManager,
    { lineId, origin, hatchDate, relation }: RecordFoundersInput,
    { id, tag, sex, name, note }: FounderInput,
    spawn: SpawnRow | null,
    person: SignedInPerson,
  ): Promise<FishRow> {
    const row = {
      id: id ?? randomUUID(),
      personId: person.id,
      ...{ tag, sex },
      name: trimmed(name) ?? null,
      hatchDate: hatchDate ?? null,
      lineId: lineId ?? null,
      spawnId: spawn?.id ?? null,
      origin: trimmed(origin) ?? null,
      declaredUnrelated: relation === 'UNRELATED' ? true : null,
      note: trimmed(note) ?? null,
      disposition: 'keeper' as const,
      swimsWithId: usualPlace(person.id, 'keeper'),
    };
    return this.records.create<FishRow>(m, fishRecord, row, person.name);
  }
}
