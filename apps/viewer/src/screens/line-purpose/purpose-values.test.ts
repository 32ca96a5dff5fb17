import { STARTING_PURPOSE } from '@linewright/mating';
import { describe, expect, it } from 'vitest';
import type { PurposeContent, PurposeTrait } from '../../api/line-purpose.js';
import { conflictsBetween } from './purpose-conflicts.js';
import { purposeSchema, sentAgain, sentContent, valuesOf } from './purpose-values.js';
import { changedParts, saidParts } from './purpose-words.js';

const { rules, ...figures } = STARTING_PURPOSE;
const content: PurposeContent = {
  ...figures,
  traits: [
    {
      ...{ traitId: 't1', trait: { id: 't1', name: 'Spread', unit: '°' } },
      ...{ better: 'HIGHER', low: 175, high: null, worth: 0.25 },
    },
  ],
  looks: [
    {
      show: [
        { locusId: 'bl', phenotype: 'royal' },
        { locusId: 'dt', phenotype: 'double' },
      ],
      ...{ wanted: true, worth: 4, required: true },
    },
  ],
  ...{ kinshipRise: 0.015, vessels: 4, fry: 200, earliest: '2026-03-01', latest: null },
  rules: {
    ages: { ...rules.ages },
    ...{ maleRest: rules.rest.male, femaleRest: rules.rest.female },
    bodyLengthRatio: { least: 0.7, most: 0.95 },
    knownAncestryFrom: 0.6,
  },
};
const names = new Map([
  ['bl:royal', 'royal blue'],
  ['dt:double', 'double tail'],
]);
const traits: readonly PurposeTrait[] = [
  {
    ...{ id: 't1', name: 'Spread', kind: 'MEASURED' as const, unit: '°', minimum: 0, maximum: 240 },
    ...{ higherIsBetter: true, grades: [] },
  },
];

describe('what a line is for, in a form', () => {
  it('is sent as it was shown, to the last figure', () => {
    const values = purposeSchema.parse(valuesOf(content));
    expect(sentContent(values)).toEqual(sentAgain(content));
  });

  it('is sent again without what only an answer says, such as the names of its types', () => {
    const answered = { __typename: 'LinePurpose' as const, ...content };
    const rules = { __typename: 'PairingRules' as const, ...content.rules };
    expect(sentAgain({ ...answered, rules } as PurposeContent)).toEqual({
      ...content,
      traits: [{ traitId: 't1', better: 'HIGHER', low: 175, high: null, worth: 0.25 }],
    });
  });

  it('takes a blank for none', () => {
    const blank = { vessels: '', fry: '', kinshipRise: '', inbreedingCost: '', earliest: '' };
    const bare = { ...blank, lengthLeast: '', lengthMost: '' };
    const sent = sentContent(purposeSchema.parse({ ...valuesOf(content), ...bare }));
    expect(sent).toMatchObject({ vessels: null, fry: null, kinshipRise: null, earliest: null });
    expect(sent.rules.bodyLengthRatio).toBeNull();
  });

  it.each([
    ['ceiling', { ceiling: '120' }],
    ['kinshipRise', { kinshipRise: '-1' }],
    ['broods', { broods: '0' }],
    ['vessels', { vessels: '2.5' }],
    ['keep', { keep: '1' }],
    ['latest', { latest: '2026-02-01' }],
    ['inbreedingCost', { inbreedingCost: '-2' }],
    ['lengthMost', { lengthMost: '' }],
    ['lengthMost', { lengthMost: '0.5' }],
    ['ages.fertileUntil', { ages: { ...valuesOf(content).ages, bestUntil: '600' } }],
    ['femaleRest.preferred', { femaleRest: { least: '30', preferred: '20' } }],
    ['traits.0.worth', { traits: [{ ...valuesOf(content).traits[0]!, worth: '-1' }] }],
    ['traits.0.high', { traits: [{ ...valuesOf(content).traits[0]!, high: '170' }] }],
    ['looks.0.parts', { looks: [{ ...valuesOf(content).looks[0]!, parts: [] }] }],
  ])('refuses %s that cannot be, at its field', (path, wrong) => {
    const read = purposeSchema.safeParse({ ...valuesOf(content), ...wrong });
    expect(read.error?.issues.map((issue) => issue.path.join('.'))).toEqual([path]);
  });
});

describe('what changed', () => {
  it('is nothing between a version and itself', () => {
    expect(changedParts(content, content, names)).toEqual([]);
    expect(conflictsBetween(valuesOf(content), content, traits, names)).toEqual([]);
  });

  it('names each part that differs, with both', () => {
    const [aim] = content.traits;
    const other: PurposeContent = {
      ...content,
      ...{ traits: [{ ...aim!, worth: 1, low: null }], looks: [], ceiling: 0.25 },
    };
    expect(changedParts(content, other, names)).toEqual([
      {
        name: 'Spread',
        before: 'more is better, at least 175 °, 0.25 points for each °',
        after: 'more is better, 1 point for each °',
      },
      {
        name: 'royal blue and double tail',
        before: 'wanted, 4 points, needed to pass',
        after: '',
      },
      { name: 'Highest F of a brood', before: '12.5 %', after: '25.0 %' },
    ]);
    expect(conflictsBetween(valuesOf(content), other, traits, names)[2]).toEqual({
      ...{ field: 'Highest F of a brood', mine: '12.5 %', saved: '25.0 %' },
    });
  });

  it('leaves out no part of a version', () => {
    const parts = saidParts(content, names).length;
    const changed: PurposeContent = {
      traits: [],
      looks: [],
      ...{ ceiling: 0, kinshipRise: null, broods: 9, vessels: null, broodsPerFish: 9, fry: null },
      ...{ keep: 90, earliest: null, latest: '2027-01-01', inbreedingCost: 7 },
      rules: {
        ages: { ...content.rules.ages, capableFrom: 1 },
        ...{ maleRest: { least: 1, preferred: 2 }, femaleRest: { least: 1, preferred: 2 } },
        bodyLengthRatio: null,
        knownAncestryFrom: 0.1,
      },
    };
    expect(changedParts(content, changed, names)).toHaveLength(parts);
  });

  it('says two wishes of one name one after the other', () => {
    const twice = { ...content, looks: [...content.looks, ...content.looks] };
    expect(changedParts(content, twice, names)[0]?.after).toContain('; ');
  });
});
