import { Injectable } from '@nestjs/common';
import DataLoader from 'dataloader';
import { DataSource, type EntityTarget, type ObjectLiteral } from 'typeorm';
import { currentActor } from '../access/acting.js';
import { seesByGrant } from '../access/actor.js';
import { PerRequest } from '../graphql/per-request.js';

/**
 * The conditions under which the policies of a table let a row be changed, as the database keeps them. They are asked for by accounts that read
 * through views, so each table is named with its schema in them.
 */
const CONDITIONS = `
  SELECT coalesce(string_agg('(' || pg_get_expr(p.polqual, p.polrelid) || ')', ' OR ') FILTER (WHERE p.polpermissive), 'false') AS may,
    coalesce(string_agg('(' || pg_get_expr(p.polqual, p.polrelid) || ')', ' AND ') FILTER (WHERE NOT p.polpermissive), 'true') AS held
  FROM pg_policy p JOIN pg_class c ON c.oid = p.polrelid
  WHERE c.relname = $1 AND c.relkind = 'r' AND p.polcmd IN ('w', '*')`;

/** Fish that whoever asks may score, as the policies of scores say it of a new one. */
const SCORED = `
  SELECT id FROM fish WHERE id = ANY ($1::uuid[]) AND (line_id = ANY (door_lines_with('score'))
    OR person_id = door_account() AND id = ANY (door_fish('all')))`;

/** Lines in which whoever asks may plan pairs, and record spawns and young. */
const BRED = `SELECT id FROM line WHERE id = ANY ($1::uuid[]) AND id = ANY (door_lines_with('breed'))`;

type Asked = PerRequest<DataLoader<string, boolean>>;

/** What whoever asks may do with records that they see, as the database would answer if they tried: one statement for all of a kind. */
@Injectable()
export class RightsLoader {
  readonly scored: Asked;
  readonly bred: Asked;
  private readonly changed = new Map<EntityTarget<ObjectLiteral>, Asked>();
  /** By table. Policies change with a migration alone, and then the program is another. */
  private readonly statements = new Map<string, string>();

  constructor(private readonly dataSource: DataSource) {
    this.scored = this.asked(async () => SCORED);
    this.bred = this.asked(async () => BRED);
  }

  /** Whether records of that class of rows may be corrected and withdrawn. */
  ofRows(target: EntityTarget<ObjectLiteral>): Asked {
    const known = this.changed.get(target) ?? this.asked(() => this.changeable(target));
    this.changed.set(target, known);
    return known;
  }

  private async changeable(target: EntityTarget<ObjectLiteral>): Promise<string> {
    const { tableName } = this.dataSource.getMetadata(target);
    const known = this.statements.get(tableName);
    if (known !== undefined) return known;
    const [found] = (await this.dataSource.query(CONDITIONS, [tableName])) as {
      may: string;
      held: string;
    }[];
    const statement = `SELECT id FROM "${tableName}" WHERE id = ANY ($1::uuid[]) AND (${found?.may ?? 'false'}) AND ${found?.held ?? 'false'}`;
    this.statements.set(tableName, statement);
    return statement;
  }

  private asked(statement: () => Promise<string>): Asked {
    return new PerRequest(
      () =>
        new DataLoader<string, boolean>(
          async (ids) => {
            const actor = currentActor();
            if (actor.kind === 'account' && actor.looking === true) return ids.map(() => false);
            // Nothing of a record that they see is kept from the owner, the household and the program.
            if (actor.kind === 'system' || !seesByGrant(actor.role)) return ids.map(() => true);
            const rows = (await this.dataSource.query(await statement(), [[...ids]])) as {
              id: string;
            }[];
            const may = new Set(rows.map(({ id }) => id));
            return ids.map((id) => may.has(id));
          },
          { cache: false },
        ),
    );
  }
}
