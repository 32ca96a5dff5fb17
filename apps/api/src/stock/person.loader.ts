import DataLoader from 'dataloader';
import { Injectable } from '@nestjs/common';
import { DataSource, In } from 'typeorm';
import { currentActor } from '../access/acting.js';
import { seesAll } from '../access/actor.js';
import { NOT_SHOWN } from '../access/masking.js';
import { notFound } from '../errors/request-error.js';
import { PerRequest } from '../graphql/per-request.js';
import { PersonRow } from './rows/person.entity.js';

/** What is told of people beside a record. */
type TellsOf = Pick<PersonRow, 'id' | 'name' | 'here'>;

/** People by id, one loader a request. Whose name the asker may not see, of them a record says that there is somebody. */
@Injectable()
export class PersonLoader {
  readonly byId: PerRequest<DataLoader<string, TellsOf | null>>;

  constructor(dataSource: DataSource) {
    this.byId = new PerRequest(
      () =>
        new DataLoader<string, TellsOf | null>(async (ids) => {
          const rows = await dataSource.getRepository(PersonRow).findBy({ id: In([...ids]) });
          const byId = new Map<string, TellsOf>(rows.map((row) => [row.id, row]));
          const masked = !seesAll(currentActor());
          return ids.map(
            (id) => byId.get(id) ?? (masked ? { id, name: NOT_SHOWN, here: false } : null),
          );
        }),
    );
  }

  /** Of a record that names somebody. @throws RequestError NOT_FOUND. */
  async known(id: string, context: object): Promise<TellsOf> {
    const row = await this.byId.of(context).load(id);
    if (row === null) throw notFound('person', id);
    return row;
  }
}
