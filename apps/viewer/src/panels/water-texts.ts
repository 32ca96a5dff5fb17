import type { WaterFigures } from '../api/water.js';
import { plainNumber } from '../wording/figures.js';
import { ammoniaUnitWord } from '../wording/water-words.js';
import type { WaterTarget } from './record-water-form.js';

/** What readings are asked for: those of a spawn, or of a vessel. */
export const askedOf = (target: WaterTarget) => ({
  spawnId: 'spawnId' in target ? target.spawnId : null,
  vessel: 'vessel' in target ? target.vessel : null,
});

const figure = (value: number | null): string => (value === null ? '–' : plainNumber(value));

/** Two figures of one column; a dash for one that was not measured. */
export const figuresText = (...values: readonly (number | null)[]): string =>
  values.map(figure).join(', ');

export const ammoniaText = ({
  totalAmmonia,
  ammoniaUnit,
}: Pick<WaterFigures, 'totalAmmonia' | 'ammoniaUnit'>): string =>
  totalAmmonia === null || ammoniaUnit === null
    ? '–'
    : `${plainNumber(totalAmmonia)} ${ammoniaUnitWord[ammoniaUnit]}`;

/** Readings in which the part that harms fish could be worked out, to be drawn. */
export const harmfulPoints = (
  readings: readonly Pick<WaterFigures, 'id' | 'takenAt' | 'unionised'>[],
) =>
  readings.flatMap(({ id, takenAt, unionised }) =>
    unionised === null ? [] : [{ id, at: new Date(takenAt), unionised: unionised.asNH3 }],
  );
