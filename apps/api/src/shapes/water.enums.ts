import { registerEnumType } from '@nestjs/graphql';

export const AmmoniaUnit = { N: 'N', NH4: 'NH4', NH3: 'NH3' } as const;
export type AmmoniaUnit = (typeof AmmoniaUnit)[keyof typeof AmmoniaUnit];
registerEnumType(AmmoniaUnit, {
  name: 'AmmoniaUnit',
  description: 'What a figure for ammonia counts: the kit’s leaflet says which.',
  valuesMap: {
    N: { description: 'Nitrogen alone: printed as N, NH3-N, NH4-N or TAN.' },
    NH4: { description: 'All of it as ammonium: printed as NH4 or NH4+.' },
    NH3: { description: 'All of it as ammonia: printed as NH3, without an N behind it.' },
  },
});

export const NitrogenForm = { N: 'N', ION: 'ion' } as const;
export type NitrogenForm = (typeof NitrogenForm)[keyof typeof NitrogenForm];
registerEnumType(NitrogenForm, {
  name: 'NitrogenForm',
  description: 'What a figure for nitrite or nitrate counts.',
  valuesMap: {
    N: { description: 'Nitrogen alone: NO2-N, NO3-N.' },
    ION: { description: 'The whole ion: NO2, NO3.' },
  },
});

export const WaterStanding = {
  UNDER: 'under',
  NEAR: 'near',
  OVER: 'over',
  UNKNOWN: 'unknown',
} as const;
export type WaterStanding = (typeof WaterStanding)[keyof typeof WaterStanding];
registerEnumType(WaterStanding, {
  name: 'WaterStanding',
  description: 'Un-ionised ammonia of a reading against the limit that is set.',
  valuesMap: {
    UNDER: { description: 'At most half the limit.' },
    NEAR: { description: 'Above half the limit, and not over it.' },
    OVER: { description: 'Over the limit.' },
    UNKNOWN: {
      description: 'Total ammonia, pH or temperature was not measured, or lies out of range.',
    },
  },
});

export const TrustState = { FRESH: 'fresh', AGEING: 'ageing', OLD: 'old' } as const;
export type TrustState = (typeof TrustState)[keyof typeof TrustState];
registerEnumType(TrustState, {
  name: 'TrustState',
  description: 'How far a reading still speaks for its water, by the rule that is set.',
  valuesMap: {
    FRESH: { description: 'In the first half of its time.' },
    AGEING: { description: 'In the second half.' },
    OLD: { description: 'Past it.' },
  },
});

export const WaterAlertKind = {
  AMMONIA_OVER: 'ammonia_over',
  AMMONIA_NEAR: 'ammonia_near',
  NITRITE: 'nitrite',
  NITRATE: 'nitrate',
  NEW_WATER: 'new_water',
  READING_OLD: 'reading_old',
} as const;
export type WaterAlertKind = (typeof WaterAlertKind)[keyof typeof WaterAlertKind];
registerEnumType(WaterAlertKind, {
  name: 'WaterAlertKind',
  description: 'Why water asks for attention.',
  valuesMap: {
    AMMONIA_OVER: { description: 'Un-ionised ammonia over the limit at the latest reading.' },
    AMMONIA_NEAR: { description: 'Above half the limit.' },
    NITRITE: { description: 'Nitrite at or above its guide.' },
    NITRATE: { description: 'Nitrate at or above its guide.' },
    NEW_WATER: {
      description:
        'Under the limit, but a usual change with the person’s new water could take it over.',
    },
    READING_OLD: { description: 'The latest reading is past its time.' },
  },
});

export const ChangeOutcome = {
  NOT_NEEDED: 'NOT_NEEDED',
  OFFERED: 'OFFERED',
  WORSE_ON_THE_WAY: 'WORSE_ON_THE_WAY',
  IMPOSSIBLE: 'IMPOSSIBLE',
} as const;
export type ChangeOutcome = (typeof ChangeOutcome)[keyof typeof ChangeOutcome];
registerEnumType(ChangeOutcome, {
  name: 'ChangeOutcome',
  description: 'What changes of water with the person’s own new water can do.',
  valuesMap: {
    NOT_NEEDED: { description: 'Not over the limit.' },
    OFFERED: {
      description: 'Steps that end under the limit, none of them above the start.',
    },
    WORSE_ON_THE_WAY: {
      description: 'Steps would end under the limit but stand above the start before: not offered.',
    },
    IMPOSSIBLE: { description: 'No changes with this water come under the limit.' },
  },
});

export const ChangeWarning = {
  PH_RISES: 'PH_RISES',
  AMMONIA_RISES: 'AMMONIA_RISES',
  PH_UNKNOWN: 'PH_UNKNOWN',
  TEMPERATURE_DIFFERS: 'TEMPERATURE_DIFFERS',
  LARGE_CHANGE: 'LARGE_CHANGE',
} as const;
export type ChangeWarning = (typeof ChangeWarning)[keyof typeof ChangeWarning];
registerEnumType(ChangeWarning, {
  name: 'ChangeWarning',
  description: 'What to be careful about in a change of water.',
  valuesMap: {
    PH_RISES: {
      description: 'The new water has a higher pH: what ammonia is left turns more poisonous.',
    },
    AMMONIA_RISES: { description: 'The new water holds more ammonia than the vessel.' },
    PH_UNKNOWN: {
      description: 'The pH of the new water was not given and is taken as that of the vessel.',
    },
    TEMPERATURE_DIFFERS: { description: 'More than 2 °C between the waters.' },
    LARGE_CHANGE: { description: 'More than half the water in all.' },
  },
});
