import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource } from 'typeorm';
import { currentActor } from '../access/acting.js';
import { seesAll, seesByGrant } from '../access/actor.js';
import type { GrantPart } from '../access/grant.js';
import { PerRequest } from '../graphql/per-request.js';

type Kept = PerRequest<DataLoader<string, readonly GrantPart[]>>;

/** In brackets with SELECT: asked once a statement, not once a row. */
const lentWith = (part: GrantPart): string =>
  `r.line_id = ANY ((SELECT door_lines_with('${part}'))::uuid[])`;
const handedWith = (part: GrantPart): string =>
  `r.id = ANY ((SELECT door_fish('${part}'))::uuid[])`;
const OWN = 'r.person_id = (SELECT door_account())';

/** By part, when it is shown of a record `r`: the same conditions as in the policies and the lent views. */
const ofFish: Conditions = {
  scores: [lentWith('scores'), handedWith('scores')],
  photos: [lentWith('photos'), handedWith('photos')],
  notes: [lentWith('notes'), handedWith('notes'), OWN],
  place: [lentWith('place'), handedWith('place'), OWN],
  prices: [lentWith('prices')],
};
/** For the owner and the household, of a fish that a keeper handed them out of a line of the keeper's: what was agreed to go along. */
const KEPT_APART = '(r.line_id = ANY ((SELECT door_kept_apart())::uuid[])) IS NOT TRUE';
const ofKeepersFish: Conditions = {
  scores: [KEPT_APART, handedWith('scores')],
  photos: [KEPT_APART, handedWith('photos')],
};
const ofSpawn: Conditions = {
  photos: [lentWith('photos')],
  notes: [lentWith('notes'), OWN],
  water: [lentWith('water')],
};

type Conditions = Partial<Record<GrantPart, readonly string[]>>;

/** The statement that asks which parts of records are shown. */
const asking = (
  table: string,
  parts: Conditions,
): { readonly names: readonly GrantPart[]; readonly statement: string } => {
  const names = Object.keys(parts) as GrantPart[];
  const shown = names.map((part) => `(${parts[part]?.join(' OR ')}) IS TRUE AS "${part}"`);
  const columns = ['r.id', ...shown].join(', ');
  return { names, statement: `SELECT ${columns} FROM "${table}" r WHERE r.id = ANY ($1::uuid[])` };
};

/** Which parts of fish and spawns are kept from whoever asks, so that what is empty for them is never told as not recorded. */
@Injectable()
export class PartsLoader {
  readonly ofFish: Kept;
  readonly ofSpawn: Kept;

  constructor(private readonly dataSource: DataSource) {
    this.ofFish = this.kept('fish', ofFish, ofKeepersFish);
    this.ofSpawn = this.kept('spawn', ofSpawn, {});
  }

  /** One statement for all records of a request; none for whoever sees all of each record. */
  private kept(table: string, lent: Conditions, ofKeepers: Conditions): Kept {
    const byGrant = asking(table, lent);
    const amongKeepers = asking(table, ofKeepers);
    return new PerRequest(
      () =>
        new DataLoader<string, readonly GrantPart[]>(
          async (ids) => {
            const actor = currentActor();
            if (seesAll(actor) || actor.kind === 'system') return ids.map(() => []);
            const asked = seesByGrant(actor.role) ? byGrant : amongKeepers;
            if (asked.names.length === 0) return ids.map(() => []);
            const rows = (await this.dataSource.query(asked.statement, [[...ids]])) as ({
              id: string;
            } & Record<GrantPart, boolean>)[];
            const byId = new Map(rows.map((row) => [row.id, row]));
            return ids.map((id) => asked.names.filter((part) => byId.get(id)?.[part] !== true));
          },
          { cache: false },
        ),
    );
  }
}
