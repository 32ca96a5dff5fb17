import type { PurposeContent } from '../../api/line-purpose.js';
import { percent, plainNumber, plural } from '../../wording/figures.js';

/** Names of looks by locus and id: "royal blue". */
export type LookNames = ReadonlyMap<string, string>;

export const directionWords = {
  HIGHER: 'more is better',
  LOWER: 'less is better',
  WITHIN: 'within a range',
} as const;

type TraitAim = PurposeContent['traits'][number];
type LookAim = PurposeContent['looks'][number];

const pointsText = (worth: number): string => plural(Number(plainNumber(worth, 3)), 'point');

export const traitAimText = ({ better, low, high, worth, trait }: TraitAim): string => {
  const unit = trait.unit === null ? '' : ` ${trait.unit}`;
  const passes = [
    low === null ? '' : `at least ${plainNumber(low, 3)}${unit}`,
    high === null ? '' : `at most ${plainNumber(high, 3)}${unit}`,
  ].filter((part) => part !== '');
  const per = trait.unit === null ? 'each' : `each${unit}`;
  return [directionWords[better], ...passes, `${pointsText(worth)} for ${per}`].join(', ');
};

export const lookText = ({ show }: Pick<LookAim, 'show'>, names: LookNames): string =>
  show
    .map(({ locusId, phenotype }) => names.get(`${locusId}:${phenotype}`) ?? phenotype)
    .join(' and ');

const lookAimText = ({ wanted, worth, required }: LookAim): string =>
  [
    wanted ? 'wanted' : 'not wanted',
    pointsText(worth),
    ...(required ? [wanted ? 'needed to pass' : 'does not pass with it'] : []),
  ].join(', ');

/** One line of what was said: its name, and what was said of it. */
export interface SaidPart {
  readonly name: string;
  readonly said: string;
}

const orNone = (value: number | null, say: (value: number) => string, none: string): string =>
  value === null ? none : say(value);

const count = (value: number): string => value.toLocaleString('en');

/** All that a version says, part by part. */
export function saidParts(content: PurposeContent, names: LookNames): SaidPart[] {
  const { ages, maleRest, femaleRest, bodyLengthRatio, knownAncestryFrom } = content.rules;
  const rest = ({ least, preferred }: { least: number; preferred: number }) =>
    `at least ${least} days, better ${preferred}`;
  return [
    ...content.traits.map((aim) => ({ name: aim.trait.name, said: traitAimText(aim) })),
    ...content.looks.map((aim) => ({ name: lookText(aim, names), said: lookAimText(aim) })),
    { name: 'Highest F of a brood', said: percent(content.ceiling, 1) },
    {
      name: 'Rise of mean kinship in a generation',
      said: orNone(content.kinshipRise, (rise) => `at most ${percent(rise, 1)}`, 'no limit'),
    },
    {
      name: 'Points lost for each 10 % of F',
      said: orNone(content.inbreedingCost, pointsText, 'as measured here'),
    },
    { name: 'Broods', said: count(content.broods) },
    { name: 'Broods of one fish', said: `at most ${count(content.broodsPerFish)}` },
    { name: 'Vessels', said: orNone(content.vessels, count, 'as many as broods') },
    { name: 'Fry that can be raised', said: orNone(content.fry, count, 'no limit') },
    { name: 'Young to keep', said: count(content.keep) },
    { name: 'First day', said: content.earliest ?? 'open' },
    { name: 'Last day', said: content.latest ?? 'open' },
    {
      name: 'Ages',
      said: `from ${ages.capableFrom} days, better ${ages.preferredFrom} to ${ages.bestUntil}, at most ${ages.fertileUntil}`,
    },
    { name: 'Rest of a male', said: rest(maleRest) },
    { name: 'Rest of a female', said: rest(femaleRest) },
    {
      name: 'Female’s length over the male’s',
      said:
        bodyLengthRatio === null
          ? 'not checked'
          : `${plainNumber(bodyLengthRatio.least)} to ${plainNumber(bodyLengthRatio.most)}`,
    },
    { name: 'Known ancestors', said: `at least ${percent(knownAncestryFrom, 1)}` },
  ];
}

/** A part that two versions say differently; blank where one says nothing of it. */
export interface ChangedPart {
  readonly name: string;
  readonly before: string;
  readonly after: string;
}

/** What changed from one version to another, part by part. */
export function changedParts(
  before: PurposeContent,
  after: PurposeContent,
  names: LookNames,
): ChangedPart[] {
  const [old, young] = [byName(saidParts(before, names)), byName(saidParts(after, names))];
  return [...new Set([...old.keys(), ...young.keys()])].flatMap((name) => {
    const [was, is] = [old.get(name) ?? '', young.get(name) ?? ''];
    return was === is ? [] : [{ name, before: was, after: is }];
  });
}

/** Two wishes of one name are said one after the other. */
function byName(parts: readonly SaidPart[]): Map<string, string> {
  const all = new Map<string, string>();
  for (const { name, said } of parts) {
    const before = all.get(name);
    all.set(name, before === undefined ? said : `${before}; ${said}`);
  }
  return all;
}
