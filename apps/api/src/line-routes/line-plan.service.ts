import { randomUUID } from 'node:crypto';
import { coancestryBlock } from '@linewright/kinship';
import { plannedBroods, type RouteStanding } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { trimmed } from '../database/given.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord, routeRecord, spawnRecord } from '../stock/record-types.js';
import { routeOfLine } from '../stock/route-rows.js';
import type { AdoptedRoute } from '../stock/rows/line-route-shape.js';
import type { LineRouteRow } from '../stock/rows/line-route.entity.js';
import { generationDays, PAIRING_DAYS } from './generation-days.js';
import type { AdoptRouteInput, SpawnOfPlanInput } from './line-plan.inputs.js';
import { RouteSearchService, type RoutesStanding } from './route-search.service.js';
import { routeKey } from './line-routes.mapper.js';

/** Routes that are adopted as the plan of a line. */
@Injectable()
export class LinePlanService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly search: RouteSearchService,
    private readonly pedigrees: PedigreeService,
  ) {}

  /** The plan of a line now; `null`: it has none. */
  async ofLine(lineId: string): Promise<LineRouteRow | null> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, lineId);
    return routeOfLine(manager, line.id);
  }

  /**
   * Adopts a route that the search has found, with the figures that it has there. A plan that stood before is taken back.
   *
   * @throws RequestError `VALIDATION` when the search no longer has that route; `CONFLICT_REVISION` when what the line is for was said anew.
   */
  async adopt(input: AdoptRouteInput, person: SignedInPerson): Promise<LineRouteRow> {
    const standing = await this.search.of(input.search, person.name);
    const { line, purpose } = standing;
    return this.dataSource.transaction(async (m) => {
      const id = input.id ?? randomUUID();
      await oneAtATime(m, id);
      const made = await this.records.known(m, routeRecord, id);
      if (made !== null) return made;
      if (purpose.version !== input.expectedPurposeVersion)
        throw new RequestError(
          'CONFLICT_REVISION',
          `A newer version of what line ${line.code} is for was saved meanwhile (this route was searched for version ${input.expectedPurposeVersion}, it is now version ${purpose.version}): search again.`,
          {
            id: line.id,
            expectedRevision: input.expectedPurposeVersion,
            currentRevision: purpose.version,
          },
        );
      const content = await this.contentOf(standing, input);
      await oneAtATime(m, `plan of ${line.id}`);
      const before = await routeOfLine(m, line.id);
      if (before !== null)
        await this.records.withdraw(
          m,
          routeRecord,
          before.id,
          'Another route was adopted.',
          person.name,
        );
      return this.records.create<LineRouteRow>(
        m,
        routeRecord,
        {
          ...{ id, lineId: line.id, personId: person.id, adoptedOn: input.adoptedOn },
          ...{
            purposeVersion: purpose.version,
            chosenSpawns: [],
            note: trimmed(input.note) ?? null,
          },
          content: content as never,
        },
        person.name,
      );
    });
  }

  /** Takes a plan back; what was paired for it stays as it is. */
  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<LineRouteRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<LineRouteRow>(
        m,
        routeRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
  }

  /** Says which spawn is a brood of the plan, or that none is, or leaves it to parents and time again. */
  saySpawn(
    { id, revision, brood, spawnId, byParents }: SpawnOfPlanInput,
    person: SignedInPerson,
  ): Promise<LineRouteRow> {
    return this.dataSource.transaction(async (m) => {
      const row = await this.records.find<LineRouteRow>(m, routeRecord, id);
      if (!(brood >= 0 && brood < row.content.broods.length))
        throw fieldError({
          field: 'brood',
          message: `The plan has ${row.content.broods.length} broods, numbered from 0; ${brood} was given.`,
        });
      const spawn = spawnId ? await this.records.find(m, spawnRecord, spawnId) : null;
      if (spawn !== null && (spawn.withdrawnAt !== null || spawn.failed))
        throw fieldError({
          field: 'spawnId',
          message: `Spawn ${spawn.tag} failed or was withdrawn: choose another one.`,
        });
      const others = row.chosenSpawns.filter((one) => one.brood !== brood);
      const twice = others.find((one) => spawn !== null && one.spawnId === spawn.id);
      if (twice !== undefined)
        throw fieldError({
          field: 'spawnId',
          message: `Spawn ${spawn!.tag} is chosen for brood ${twice.brood + 1} of the plan already: a spawn is one brood.`,
        });
      const said = byParents === true ? [] : [{ brood, spawnId: spawn?.id ?? null }];
      const chosenSpawns = [...others, ...said].toSorted((a, b) => a.brood - b.brood);
      return this.records.correct<LineRouteRow>(
        m,
        routeRecord,
        row.id,
        revision,
        { chosenSpawns },
        person.name,
      );
    });
  }

  private async contentOf(
    { answer, purpose, forNow }: RoutesStanding,
    { search, key }: AdoptRouteInput,
  ): Promise<AdoptedRoute> {
    if (forNow.length > 0)
      throw fieldError({
        field: 'key',
        message: `${forNow.join(' ')} Adopt a route when the search with the figures of your own fish is done.`,
      });
    const idOf = (at: number): string => answer!.fish[at]!;
    const found = answer?.routes.find(({ route }) => routeKey(route, idOf) === key);
    if (found === undefined)
      throw fieldError({
        field: 'key',
        message:
          'The search no longer has this route, because the records have changed: search again, then adopt one.',
      });
    const { route, ...figures } = found;
    const { rules, ceiling } = purpose.content;
    return {
      ...figuresOf(figures),
      ...{ scheme: route.scheme, fish: route.fish.map(idOf) },
      broods: await this.broodsOf(route, idOf),
      ...{ share: search.share, ceiling, fryPerBrood: search.fryPerBrood },
      ...{ daysToFirst: PAIRING_DAYS, daysPerGeneration: generationDays(rules) },
    };
  }

  private async broodsOf(
    route: RouteStanding['route'],
    idOf: (at: number) => string,
  ): Promise<AdoptedRoute['broods']> {
    const { pedigree } = await this.pedigrees.state();
    const { fish } = route;
    const at = Int32Array.from(fish, (place) => pedigree.indexOf(idOf(place)));
    const block = coancestryBlock(pedigree, at, at);
    return plannedBroods(
      route,
      idOf,
      (a, b) => block[fish.indexOf(a) * fish.length + fish.indexOf(b)]!,
    );
  }
}

const figuresOf = (figures: Omit<RouteStanding, 'route'>) => ({
  ...{ chance: figures.chance, low: figures.low, high: figures.high },
  ...{ byGeneration: [...figures.byGeneration], simulations: figures.simulations },
  ...{ meanGenerations: figures.generations, fry: figures.fry },
});
