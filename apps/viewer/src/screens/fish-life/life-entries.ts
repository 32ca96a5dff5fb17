import type { LivedFish } from '../../api/life.js';
import { moneyText } from '../../wording/money.js';
import { scoreText } from '../../wording/scores.js';
import { placingText } from '../../wording/show-words.js';
import { dispositionWord } from '../../wording/words.js';

/** What an entry of a life is about, by which it is chosen. */
export const LIFE_KINDS = {
  began: 'Hatched and decided',
  scored: 'Scored',
  seen: 'Appearance',
  pictured: 'Photos',
  bred: 'Spawns',
  moved: 'Handed over',
  shown: 'Shows',
  priced: 'Prices',
} as const;
export type LifeKind = keyof typeof LIFE_KINDS;

export interface LifeEntry {
  readonly id: string;
  readonly kind: LifeKind;
  /** `YYYY-MM-DD` */
  readonly on: string;
  readonly words: string;
  /** Where more of it stands. */
  readonly path?: string;
  /** Address of a small picture. */
  readonly picture?: string;
}

const list = (...parts: readonly (string | null)[]): string =>
  parts.filter((part) => part !== null && part !== '').join(', ');

const began = (fish: LivedFish): LifeEntry[] => {
  const entries: LifeEntry[] = [];
  if (fish.hatchDate !== null)
    entries.push({
      ...{ id: 'hatched', kind: 'began', on: fish.hatchDate },
      words: fish.spawn === null ? 'Hatched' : `Hatched in ${fish.spawn.tag}`,
      ...(fish.spawn !== null && { path: `/spawns/${fish.spawn.id}` }),
    });
  if (fish.dispositionDate !== null) {
    const word = dispositionWord[fish.disposition];
    const words = list(`${word.charAt(0).toUpperCase()}${word.slice(1)}`, fish.dispositionReason);
    entries.push({ id: 'decided', kind: 'began', on: fish.dispositionDate, words });
  }
  return entries;
};

/** Scores of one day are one entry. */
const scored = ({ scores, sheetScorings }: LivedFish): LifeEntry[] => {
  const days = new Map<string, string[]>();
  for (const { scoredOn, value, trait } of scores)
    days.set(scoredOn, [...(days.get(scoredOn) ?? []), `${trait.name} ${scoreText(value, trait)}`]);
  const plain = [...days].map(([on, words]): LifeEntry => ({
    id: `scores ${on}`,
    kind: 'scored',
    on,
    words: words.join('; '),
  }));
  const sheets = sheetScorings
    .filter(({ withdrawn }) => withdrawn === null)
    .map(({ id, scoredOn, sheet, total: { total } }): LifeEntry => ({
      ...{ id, kind: 'scored', on: scoredOn },
      words: list(
        `Sheet ${sheet.name}`,
        total === null ? null : `${Number(total.toFixed(1))} points`,
      ),
    }));
  return [...plain, ...sheets];
};

const moved = ({ handOvers }: LivedFish): LifeEntry[] =>
  handOvers.flatMap(({ id, kind, movedOn, endedOn, endedAs, toName, from }) => {
    const way = kind === 'LOAN' ? 'Lent' : kind === 'SALE' ? 'Sold' : 'Given';
    const went: LifeEntry[] =
      movedOn === null
        ? []
        : [{ id, kind: 'moved', on: movedOn, words: `${way} by ${from.name} to ${toName}` }];
    if (endedOn === null || endedAs !== 'CAME_BACK') return went;
    return [
      ...went,
      { id: `${id} back`, kind: 'moved', on: endedOn, words: `Back from ${toName}` },
    ];
  });

const DEAL: Readonly<Record<LivedFish['deals'][number]['kind'], string>> = {
  BOUGHT: 'Bought',
  ASKED: 'Put up for sale',
  SOLD: 'Sold',
  GIVEN: 'Given away',
  SWAPPED: 'Swapped',
};

const priced = ({ deals }: LivedFish): LifeEntry[] =>
  deals.map(({ id, kind, onDate, amount, currency, withWhom }) => ({
    ...{ id, kind: 'priced' as const, on: onDate },
    words: list(
      DEAL[kind],
      amount === null || currency === null ? null : moneyText(amount, currency),
      withWhom,
    ),
  }));

/** All that is dated of a fish, the newest first; of one day in the order of the kinds. What has no day has no place in it. */
export function lifeOf(fish: LivedFish): readonly LifeEntry[] {
  const entries: LifeEntry[] = [
    ...began(fish),
    ...scored(fish),
    ...fish.phenotypesSeen.map(({ id, seenOn, name }): LifeEntry => ({
      ...{ id, kind: 'seen', on: seenOn, words: name },
    })),
    ...fish.photos.flatMap(({ id, takenOn, caption, smallPath }): LifeEntry[] =>
      takenOn === null
        ? []
        : [{ id, kind: 'pictured', on: takenOn, words: caption ?? 'Photo', picture: smallPath }],
    ),
    ...fish.spawnsAsParent.flatMap(({ id, tag, spawnedOn, failed }): LifeEntry[] =>
      spawnedOn === null
        ? []
        : [
            {
              ...{ id, kind: 'bred', on: spawnedOn, path: `/spawns/${id}` },
              words: failed ? `Spawned ${tag}, which failed` : `Spawned ${tag}`,
            },
          ],
    ),
    ...moved(fish),
    ...fish.showResults.map((result): LifeEntry => ({
      ...{ id: result.id, kind: 'shown', on: result.onDate },
      words: list(result.show, result.class, placingText(result), result.note),
    })),
    ...priced(fish),
  ];
  return entries.toSorted((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0));
}
