import DataLoader from 'dataloader';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { onceARequest } from '../graphql/once-a-request.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { namedFish } from './named-fish.js';

/** Names of fish that figures and paths tell of: all that one request needs are asked for together. */
@Injectable()
export class FishNames {
  constructor(private readonly dataSource: DataSource) {}

  async of(ids: readonly string[]): Promise<Map<string, NamedFishModel>> {
    const names = await onceARequest(this, () => Promise.resolve(this.loader()));
    const found = await Promise.all(ids.map((id) => names.load(id)));
    return new Map(found.flatMap((one) => (one === null ? [] : [[one.id, one] as const])));
  }

  private loader(): DataLoader<string, NamedFishModel | null> {
    return new DataLoader(async (ids: readonly string[]) => {
      const named = await namedFish(this.dataSource, ids);
      return ids.map((id) => named.get(id) ?? null);
    });
  }
}
