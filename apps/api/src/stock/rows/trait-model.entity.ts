import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/** With what a trait's breeding values are worked out, where that was set otherwise than is usual for its kind. */
@Entity('trait_model')
@Index('trait_model_once', ['traitId'], { unique: true, where: 'withdrawn_at IS NULL' })
export class TraitModelRow extends RecordRow {
  @ForeignKey('TraitDefinitionRow', { name: 'trait_model_trait', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'trait_id' })
  traitId: string;

  @Column('boolean')
  season: boolean;

  @Column('boolean')
  age: boolean;

  @Column('boolean')
  sex: boolean;

  /** Founders of different lines need not have one mean. */
  @Column('boolean', { name: 'lines_apart' })
  linesApart: boolean;

  @Column('boolean')
  brood: boolean;

  /** With whom the fish swims. */
  @Column('boolean')
  place: boolean;

  /** What stays with a fish from look to look, but is not inherited. */
  @Column('boolean')
  looks: boolean;

  @Column('boolean')
  scorer: boolean;

  /** Own traits whose scores of the same fish are corrected for. */
  @Column('uuid', { name: 'beside_trait_ids', array: true, default: () => "'{}'" })
  besideTraitIds: string[];

  @Column('text')
  prior: 'fish_size' | 'flat';
}
