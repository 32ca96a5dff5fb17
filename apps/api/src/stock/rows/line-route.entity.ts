import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';
import { storedJson } from '../../database/stored-json.js';
import {
  type AdoptedRoute,
  type ChosenSpawn,
  chosenSpawnsShape,
  lineRouteShape,
  unreadableRoute,
} from './line-route-shape.js';

/** A route that was adopted as the plan of a line. One at a time stands. */
@Entity('line_route')
@Index('line_route_once', ['lineId'], { unique: true, where: 'withdrawn_at IS NULL' })
export class LineRouteRow extends RecordRow {
  @Index('line_route_by_line')
  @ForeignKey('LineRow', { name: 'line_route_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @ForeignKey('PersonRow', { name: 'line_route_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('date', { name: 'adopted_on' })
  adoptedOn: string;

  /** Version of what the line is for that it was searched for. */
  @Column('integer', { name: 'purpose_version' })
  purposeVersion: number;

  @Column('jsonb', { transformer: storedJson('plan of a line', lineRouteShape, unreadableRoute) })
  content: AdoptedRoute;

  @Column('jsonb', {
    name: 'chosen_spawns',
    default: [],
    transformer: storedJson('choice of spawns', chosenSpawnsShape, () => []),
  })
  chosenSpawns: ChosenSpawn[];

  @Column('text', { nullable: true })
  note: string | null;
}
