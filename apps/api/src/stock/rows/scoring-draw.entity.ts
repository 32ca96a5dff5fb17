import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/** Fish of a brood that chance chose to be scored before the brood is sorted: their scores count as unselected. */
@Entity('scoring_draw')
export class ScoringDrawRow extends RecordRow {
  @Index('scoring_draw_by_spawn')
  @ForeignKey('SpawnRow', { name: 'scoring_draw_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id' })
  spawnId: string;

  @Column('date', { name: 'drawn_on' })
  drawnOn: string;

  /** Young here and not yet sorted, among which chance chose. */
  @Column('integer', { name: 'drawn_from' })
  drawnFrom: number;

  @Column('uuid', { name: 'fish_ids', array: true })
  fishIds: string[];

  @Column('text', { name: 'by_name' })
  byName: string;
}
