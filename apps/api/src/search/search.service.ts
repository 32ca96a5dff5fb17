import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { recordsWith } from '../stock/search-rows.js';
import { FoundKind, type FoundGroupModel } from './search.model.js';
import { wordsAround } from './words-around.js';

const SHOWN = 10;

/** Looks for a text in all records that whoever asks may see. */
@Injectable()
export class SearchService {
  constructor(private readonly dataSource: DataSource) {}

  /** Groups with something in them, fish first. */
  async find(given: string): Promise<FoundGroupModel[]> {
    const text = given.trim().replace(/\s+/gu, ' ');
    if (text === '') return [];
    const rows = await recordsWith(this.dataSource.manager, text, SHOWN + 1);
    return Object.values(FoundKind).flatMap((kind) => {
      const all = rows.filter((row) => row.kind === kind);
      const found = all.slice(0, SHOWN).map(({ id, title, beside, note }) => ({
        ...{ id, title, beside: beside === '' ? null : beside },
        words: wordsAround(note, text),
      }));
      return found.length === 0 ? [] : [{ kind, found, hasMore: all.length > SHOWN }];
    });
  }
}
