import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

/** A line between this install and a partner's: what was written and read last. */
@Entity('line_exchange')
export class LineExchangeRow {
  @ForeignKey('PartnerInstallRow', {
    name: 'line_exchange_install',
    deferrable: 'INITIALLY DEFERRED',
  })
  @PrimaryColumn('uuid', { name: 'install_id' })
  installId: string;

  /** A line that they offer may not be here yet. */
  @PrimaryColumn('uuid', { name: 'line_id' })
  lineId: string;

  /** As the last file of theirs calls it. */
  @Column('text', { name: 'line_code', nullable: true })
  lineCode: string | null;

  /** SHA-256 of what was last written for them, before it was sealed. */
  @Column('text', { name: 'sent_print', nullable: true })
  sentPrint: string | null;

  /** Of the state of the records and the grant from which it was made: the same again makes the same file. */
  @Column('text', { name: 'state_print', nullable: true })
  statePrint: string | null;

  /** SHA-256 of the file as it was put into the folder. */
  @Column('text', { name: 'sealed_print', nullable: true })
  sealedPrint: string | null;

  /** Names of the pictures that belong to it in the folder, with their bytes there. */
  @Column('jsonb', { default: () => "'{}'" })
  pictures: Record<string, number>;

  @Column('timestamptz', { name: 'sent_at', nullable: true })
  sentAt: Date | null;

  /** SHA-256 of the file of theirs that was last taken in. */
  @Column('text', { name: 'read_print', nullable: true })
  readPrint: string | null;

  @Column('timestamptz', { name: 'read_at', nullable: true })
  readAt: Date | null;

  /** Records that were new or changed by it. */
  @Column('integer', { default: 0 })
  taken: number;

  /** Changes of theirs that were not taken: the grant does not give them, or something that they need is missing. */
  @Column('integer', { name: 'left_out', default: 0 })
  leftOut: number;

  /** Pictures whose file has not come yet. */
  @Column('integer', { name: 'photos_waiting', default: 0 })
  photosWaiting: number;

  /** When what last changed something here was written, by which it is found in the history. */
  @Column('timestamptz', { name: 'came_at', nullable: true })
  cameAt: Date | null;

  /** Why their last file was not taken in. */
  @Column('text', { nullable: true })
  problem: string | null;
}
