import { randomUUID } from 'node:crypto';
import {
  catalogue,
  defineLocus,
  findLocus,
  HeredityError,
  type Locus,
  type LocusDefinition,
  type LocusUse,
  parsePartialGenotype,
  restoreLocus,
  reviseLocus,
  withdrawLocus,
} from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { onceARequest } from '../graphql/once-a-request.js';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import {
  addLocusVersion,
  ownLoci,
  ownLocusNamed,
  valuesAtLocus,
  versionsOfLocus,
} from '../stock/locus-rows.js';
import { ownLocusRecord } from '../stock/record-types.js';
import type { OwnLocusRow, OwnLocusVersionRow } from '../stock/rows/own-locus.entity.js';

/** The catalogue's loci and the person's own, together: whoever takes the id of a locus looks it up here. */
@Injectable()
export class LociService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /** The person's own, oldest first; withdrawn ones carry their status, so that using one is a clear error. */
  async own(manager?: EntityManager): Promise<Locus[]> {
    const rows = manager === undefined ? await this.rows() : await ownLoci(manager);
    return rows.map((row) => row.definition);
  }

  async all(manager?: EntityManager): Promise<Locus[]> {
    return [...catalogue, ...(await this.own(manager))];
  }

  /** @throws HeredityError `LOCUS_UNKNOWN`, `LOCUS_WITHDRAWN`. */
  async find(id: string, manager?: EntityManager): Promise<Locus> {
    return findLocus(id, await this.all(manager));
  }

  rows(): Promise<OwnLocusRow[]> {
    return onceARequest(this, () => ownLoci(this.dataSource.manager));
  }

  /** Every version, newest first. */
  async versions(locusId: string): Promise<OwnLocusVersionRow[]> {
    const { manager } = this.dataSource;
    const row = await ownLocusNamed(manager, locusId);
    if (row === null) throw notFound('locus of your own', locusId);
    return versionsOfLocus(manager, row.id);
  }

  define(
    definition: LocusDefinition,
    id: string | undefined,
    person: SignedInPerson,
  ): Promise<OwnLocusRow> {
    if (!/^[a-z][a-z0-9-]{0,31}$/.test(definition.id)) {
      throw fieldError({
        field: 'locusId',
        message: `"${definition.id}" cannot be a short name: give a small letter, then small letters, digits or hyphens, at most 32.`,
      });
    }
    const inCatalogue = catalogue.find((locus) => locus.id === definition.id);
    if (inCatalogue !== undefined) {
      throw fieldError({
        field: 'locusId',
        message: `"${definition.id}" is the catalogue's ${inCatalogue.name}: choose another short name.`,
      });
    }
    const locus = defineLocus(definition);
    const row = {
      id: id ?? randomUUID(),
      personId: person.id,
      locusId: locus.id,
      definition: locus,
    };
    const save = this.dataSource.transaction(async (m) => {
      if (id !== undefined) {
        const standing = await this.records.known(m, ownLocusRecord, id);
        if (standing !== null) return standing;
      }
      const made = await this.records.create<OwnLocusRow>(m, ownLocusRecord, row, person.name);
      await addLocusVersion(m, made, person.name, this.clock.now());
      return made;
    });
    const taken = `You have a locus "${locus.id}" already: revise it, or choose another short name.`;
    return orTaken(save, 'own_locus_once', 'locusId', taken);
  }

  revise(
    input: { id: string; revision: number },
    changes: Partial<Omit<LocusDefinition, 'id'>>,
    person: SignedInPerson,
  ): Promise<OwnLocusRow> {
    return this.change(input, 'corrected', person, async (m, locus) =>
      reviseLocus(locus, changes, await this.useOf(m, locus)),
    );
  }

  async withdraw(input: WithdrawInput, person: SignedInPerson): Promise<OwnLocusRow> {
    if (input.reason.trim() === '') {
      throw fieldError({ field: 'reason', message: 'Say why the locus is withdrawn.' });
    }
    return this.change(input, `withdrawn: ${input.reason.trim()}`, person, (_m, locus) => {
      if (locus.status === 'withdrawn') {
        throw new HeredityError('LOCUS_WITHDRAWN', `The locus "${locus.id}" is withdrawn already.`);
      }
      return withdrawLocus(locus);
    });
  }

  restore(id: string, person: SignedInPerson): Promise<OwnLocusRow> {
    return this.change({ id }, 'restored', person, (_m, locus) => restoreLocus(locus));
  }

  private change(
    input: { id: string; revision?: number },
    action: string,
    person: SignedInPerson,
    next: (m: EntityManager, locus: Locus) => Locus | Promise<Locus>,
  ): Promise<OwnLocusRow> {
    return this.dataSource.transaction(async (m) => {
      const row = await this.records.lock(m, ownLocusRecord, input.id);
      const definition = await next(m, row.definition);
      const changed = await this.records.correct<OwnLocusRow>(
        m,
        ownLocusRecord,
        row.id,
        input.revision,
        { definition },
        person.name,
        action,
      );
      await addLocusVersion(m, changed, person.name, this.clock.now());
      return changed;
    });
  }

  /** Alleles and phenotypes that standing records hold on to. */
  private async useOf(m: EntityManager, locus: Locus): Promise<LocusUse> {
    const rows = await valuesAtLocus(m, locus.id);
    const alleles = rows
      .filter((row) => row.what === 'genotype')
      .flatMap((row) => parsePartialGenotype(locus, row.value).flat());
    const named = new Set(rows.filter((row) => row.what === 'phenotype').map((row) => row.value));
    return {
      alleles: [...new Set(alleles)],
      phenotypes: locus.phenotypes
        .filter((one) => named.has(one.id) || named.has(one.name))
        .map((one) => one.id),
    };
  }
}
