import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { fieldError, notFound } from '../errors/request-error.js';
import { SavedSearchRow } from '../stock/rows/saved-search.entity.js';

/** So many names can still be read through. */
export const MOST_SAVED = 50;
/** Names and values as in an address, without anything that leads elsewhere. */
const FILTER = /^[\w.~%+:-]+=[\w.~%+:-]*(&[\w.~%+:-]+=[\w.~%+:-]*)*$/;

/** Searches of the list of fish that somebody named; each person's are theirs alone. */
@Injectable()
export class SavedSearches {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** By name. */
  of(
    personId: string,
    manager: EntityManager = this.dataSource.manager,
  ): Promise<SavedSearchRow[]> {
    return manager.find(SavedSearchRow, { where: { personId }, order: { name: 'ASC' } });
  }

  /** One of the same name is replaced. */
  async save(
    personId: string,
    { name: given, filter }: { name: string; filter: string },
  ): Promise<SavedSearchRow[]> {
    const name = given.trim();
    if (name === '') throw fieldError({ field: 'name', message: 'Give the search a name.' });
    if (!FILTER.test(filter))
      throw fieldError({
        field: 'filter',
        message: 'This is no filter of the list of fish: narrow the list, then save it.',
      });
    return this.dataSource.transaction(async (manager) => {
      const saved = await this.of(personId, manager);
      if (saved.length >= MOST_SAVED && saved.every((one) => one.name !== name))
        throw fieldError({
          field: 'name',
          message: `${MOST_SAVED} searches are saved: remove one first, or take a name that is there.`,
        });
      const row = { id: randomUUID(), personId, name, filter, at: this.clock.now() };
      await manager
        .createQueryBuilder()
        .insert()
        .into(SavedSearchRow)
        .values(row)
        .orUpdate(['filter', 'at'], ['person_id', 'name'])
        .execute();
      return this.of(personId, manager);
    });
  }

  async remove(personId: string, id: string): Promise<SavedSearchRow[]> {
    const { affected } = await this.dataSource
      .getRepository(SavedSearchRow)
      .delete({ id, personId });
    if (affected === 0) throw notFound('saved search', id);
    return this.of(personId);
  }
}
