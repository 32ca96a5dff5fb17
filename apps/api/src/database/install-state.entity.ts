import { Column, Entity, PrimaryColumn } from 'typeorm';

/** One row (id 1): what this install holds, and the revision that every process's computed figures are tied to. */
@Entity('install_state')
export class InstallStateRow {
  @PrimaryColumn('integer')
  id: number;

  /** True while the records are the demo scenario's. */
  @Column('boolean', { default: false })
  demo: boolean;

  /** True while phones on the network of the house may reach this install. */
  @Column('boolean', { name: 'home_network', default: false })
  homeNetwork: boolean;

  /** Raised by triggers whenever parentage may have changed. */
  @Column('bigint', { name: 'pedigree_revision', default: 0 })
  pedigreeRevision: string;

  /** Version of the program that last opened the database. */
  @Column('text', { name: 'program_version', nullable: true })
  programVersion: string | null;
}
