import { registerEnumType } from '@nestjs/graphql';

export const VesselKind = {
  JAR: 'jar',
  TANK: 'tank',
  TUB: 'tub',
  CONE: 'cone',
  OTHER: 'other',
} as const;
export type VesselKind = (typeof VesselKind)[keyof typeof VesselKind];

export const VesselCompany = { SORORITY: 'sorority', PAIR: 'pair', GROW_OUT: 'grow_out' } as const;
export type VesselCompany = (typeof VesselCompany)[keyof typeof VesselCompany];

registerEnumType(VesselKind, {
  name: 'VesselKind',
  description: 'What kind of vessel.',
  valuesMap: {
    JAR: { description: 'A jar, mostly for one fish.' },
    TANK: { description: 'A tank.' },
    TUB: { description: 'A tub.' },
    CONE: { description: 'A cone or other hatchery vessel.' },
    OTHER: { description: 'Something else.' },
  },
});

registerEnumType(VesselCompany, {
  name: 'VesselCompany',
  description: 'Why several are in one vessel.',
  valuesMap: {
    SORORITY: { description: 'Females that live together.' },
    PAIR: { description: 'A male and a female that are to spawn.' },
    GROW_OUT: { description: 'Young that grow up together, or fish with their fry.' },
  },
});
