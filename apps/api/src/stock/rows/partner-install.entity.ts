import { Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** The install of a partner, known by its keys since the two were paired. */
@Entity('partner_install')
export class PartnerInstallRow {
  /** Follows from its keys. */
  @PrimaryColumn('uuid', { name: 'install_id' })
  installId: string;

  /** The account whose grants say what goes there. */
  @Index('partner_install_by_person')
  @ForeignKey('PersonRow', { name: 'partner_install_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  /** Ed25519, base64url. */
  @Column('text', { name: 'signing_key' })
  signingKey: string;

  /** X25519, as the age format writes it. */
  @Column('text', { name: 'reading_key' })
  readingKey: string;

  @CreateDateColumn({ name: 'paired_at', type: 'timestamptz' })
  pairedAt: Date;

  /** When somebody said that the words are the same on both screens. */
  @Column('timestamptz', { name: 'compared_at', nullable: true })
  comparedAt: Date | null;

  /** From then on nothing of it is taken, and nothing is written for it. */
  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('text', { name: 'ended_reason', nullable: true })
  endedReason: string | null;

  /** When their install said that it took the key of this one back; null while it has not. */
  @Column('timestamptz', { name: 'refused_at', nullable: true })
  refusedAt: Date | null;

  @Column('text', { name: 'refused_reason', nullable: true })
  refusedReason: string | null;

  /** A folder of this machine that both reach. */
  @Column('text', { nullable: true })
  folder: string | null;

  /** When the folder was last looked into. */
  @Column('timestamptz', { name: 'looked_at', nullable: true })
  lookedAt: Date | null;

  /** Why that did not come to its end. */
  @Column('text', { nullable: true })
  problem: string | null;

  /** Others that write into the same folder, by what they call themselves there. */
  @Column('text', { array: true, default: () => "'{}'" })
  strangers: string[];
}
