import {
  type Marking,
  type MarkingKind,
  measuredOn,
  type Pixels,
  repeatErrorOf,
} from '@linewright/pictures';
import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { PhotoFiles } from '../photo-files/photo-files.js';
import { pixelsOf } from '../photo-files/photo-image.js';
import type { MarkingErrorModel } from '../shapes/marking.model.js';
import { RecordStore } from '../stock/record-store.js';
import { photoRecord, traitRecord } from '../stock/record-types.js';
import type { PhotoRow } from '../stock/rows/photo.entity.js';
import type { TraitDefinitionRow } from '../stock/rows/score.entity.js';
import type { KnownScore } from '../stock/score.loader.js';
import { markedScores } from '../stock/score-rows.js';
import type { MarkingInput, ScoreFromPictureInput } from './marking.inputs.js';
import { ScoresService } from './scores.service.js';

/** Units of traits that a kind of marking gives; a count has none to keep to. */
const UNITS: Readonly<Record<Exclude<MarkingKind, 'count'>, readonly string[]>> = {
  spread: ['°', 'degrees', 'degree', 'deg'],
  length: ['mm', 'millimetres', 'millimeters'],
  colour: ['%', 'per cent', 'percent'],
};

function expectUnit({ name, kind, unit }: TraitDefinitionRow, measured: MarkingKind): void {
  if (measured === 'count') {
    if (kind === 'count') return;
    throw fieldError({
      field: 'traitId',
      message: `${name} is not a count: choose a trait that is counted.`,
    });
  }
  const units = UNITS[measured];
  if (kind === 'measured' && units.includes((unit ?? '').trim().toLowerCase())) return;
  throw fieldError({
    field: 'traitId',
    message: `${name} is not measured in ${units[0]}: choose a trait that is.`,
  });
}

/** A pixel is no finer than this: more digits would be false. */
const rounded = (value: number): number => Math.round(value * 10) / 10;

const readMarking = ({ kind, points, heads, scale, colour, flat }: MarkingInput): Marking => ({
  kind,
  points: points.map(({ x, y }) => ({ x, y })),
  ...(kind === 'spread' && { heads: heads ?? 'left' }),
  ...(kind === 'length' && scale != null && { scale }),
  ...(kind === 'colour' && colour != null && { colour }),
  flat,
});

/** Scores that are measured on pictures: the points go along with the score, and the figure is worked out here. */
@Injectable()
export class MarkingsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly scores: ScoresService,
    private readonly files: PhotoFiles,
  ) {}

  async record(input: ScoreFromPictureInput, person: SignedInPerson): Promise<KnownScore> {
    const { manager } = this.dataSource;
    const photo = await this.records.standing<PhotoRow>(manager, photoRecord, input.photoId);
    if (photo === null) throw notFound('photo', input.photoId);
    const { fishId, takenOn } = photo;
    if (fishId === null)
      throw fieldError({
        field: 'photoId',
        message: 'This picture is not of one fish: measure on a picture of the fish.',
      });
    if (takenOn === null)
      throw fieldError({
        field: 'photoId',
        message: 'It is not on record when this picture was taken: give it its day first.',
      });
    expectUnit(await this.records.find(manager, traitRecord, input.traitId), input.marking.kind);
    const marking = readMarking(input.marking);
    const value = rounded(await measuredOn(marking, photo, () => this.pixels(photo)));
    const score = { id: input.id ?? randomUUID(), traitId: input.traitId, value };
    const sheet = {
      ...{ fishId, scoredOn: takenOn, scores: [score] },
      ...(input.scorer != null && { scorer: input.scorer }),
    };
    return this.dataSource.transaction(async (m) => {
      const [kept] = await this.scores.recordIn(m, sheet, person, {
        marking: { ...marking, photoId: photo.id },
      });
      return kept!;
    });
  }

  /** By the present version of the trait; null where no picture was marked twice. */
  async errorOf(traitId: string): Promise<MarkingErrorModel | null> {
    const { manager } = this.dataSource;
    const trait = await this.records.find(manager, traitRecord, traitId);
    const byPhoto = new Map<string, { value: number; scorer: string }[]>();
    for (const { photoId, ...marked } of await markedScores(manager, traitId, trait.version))
      byPhoto.set(photoId, [...(byPhoto.get(photoId) ?? []), marked]);
    const groups = [...byPhoto.values()].filter((group) => group.length > 1);
    const error = repeatErrorOf(groups.map((group) => group.map(({ value }) => value)));
    const people = groups.map((group) => new Set(group.map(({ scorer }) => scorer)).size);
    return error === null
      ? null
      : { ...error, byTwoPeople: people.filter((count) => count > 1).length };
  }

  /** Of the gallery's copy: enough for a share of colour, and a hundredth of the pixels. */
  private pixels({ sha256 }: PhotoRow): Promise<Pixels> {
    return pixelsOf(this.files.pathOf(sha256, 'small'));
  }
}
