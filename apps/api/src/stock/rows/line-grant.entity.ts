import { CreateDateColumn, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

/** A line that an account may look at. The policies of the tables read it; nothing writes it yet but tests. */
@Entity('line_grant')
export class LineGrantRow {
  @ForeignKey('PersonRow', { name: 'line_grant_account', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'account_id' })
  accountId: string;

  @ForeignKey('LineRow', { name: 'line_grant_line', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'line_id' })
  lineId: string;

  @CreateDateColumn({ name: 'granted_at', type: 'timestamptz' })
  grantedAt: Date;
}
