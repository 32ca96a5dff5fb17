import { Check, Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { GrantLevel } from '../../access/grant.js';

/** What an account may see and do of a line. The policies of the tables read it. */
@Entity('line_grant')
@Check('line_grant_level', `level IN ('look', 'score', 'breed')`)
export class LineGrantRow {
  @ForeignKey('PersonRow', { name: 'line_grant_account', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'account_id' })
  accountId: string;

  @ForeignKey('LineRow', { name: 'line_grant_line', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'line_id' })
  lineId: string;

  @CreateDateColumn({ name: 'granted_at', type: 'timestamptz' })
  grantedAt: Date;

  @Column('text', { default: 'look' })
  level: GrantLevel;

  @Column('boolean', { default: false })
  scores: boolean;

  @Column('boolean', { default: false })
  photos: boolean;

  @Column('boolean', { default: false })
  notes: boolean;

  @Column('boolean', { default: false })
  water: boolean;

  @Column('boolean', { default: false })
  place: boolean;

  @Column('boolean', { default: false })
  prices: boolean;

  /** Whether ancestors outside of the line are named. */
  @Column('boolean', { default: false })
  ancestors: boolean;

  /** Who granted it; null for what was granted before that was kept. */
  @Column('uuid', { name: 'by_account_id', nullable: true, default: () => 'door_account()' })
  byAccountId?: string | null;
}

/** A line that an account keeps for itself on this server. Written by the database when a keeper records a line. */
@Entity('kept_line')
export class KeptLineRow {
  @ForeignKey('LineRow', { name: 'kept_line_line', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'line_id' })
  lineId: string;

  @Index('kept_line_by_account')
  @ForeignKey('PersonRow', { name: 'kept_line_account', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'account_id' })
  accountId: string;
}
