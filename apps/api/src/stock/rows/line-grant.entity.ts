import { Check, Column, CreateDateColumn, Entity, ForeignKey, PrimaryColumn } from 'typeorm';
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
}
