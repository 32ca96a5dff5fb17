import { Module } from '@nestjs/common';
import { KinshipModule } from '../kinship/kinship.module.js';
import { RelationshipResolver } from './relationship.resolver.js';
import { RelationshipMapService } from './relationship-map.service.js';

/** How fish in use are related to each other. Reads only. */
@Module({
  imports: [KinshipModule],
  providers: [RelationshipMapService, RelationshipResolver],
})
export class RelationshipModule {}
