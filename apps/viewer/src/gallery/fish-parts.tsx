import type { CareStep } from '../api/care.js';
import type { ComponentProps } from 'react';
import { FishFace, FishPicturesContext } from '../components/fish-face.js';
import { FitResult } from '../components/fit-result.js';
import { CareBasis } from '../components/care-basis.js';
import { CareWhy, PublishedFigures } from '../components/care-why.js';
import { CrossClasses } from '../components/cross-classes.js';
import { DrawnLook } from '../components/drawn-look.js';
import {
  DispositionMark,
  FishLink,
  PairLinks,
  PlaceMark,
  SexMark,
} from '../components/fish-marks.js';
import { GenotypeChances } from '../components/genotype-chances.js';
import { InbreedingPaths } from '../components/inbreeding-paths.js';
import type { Disposition, Sex } from '../wording/words.js';
import {
  anInbreeding,
  aCross,
  aFit,
  aReason,
  aStep,
  dam,
  inventedPictures,
  sire,
} from './invented-records.js';
import { emptyBox, longWords, nothing } from './invented-words.js';
import type { Parts } from './parts.js';

function Faced(props: ComponentProps<typeof FishFace>) {
  return (
    <FishPicturesContext value={new Map(inventedPictures.map((one) => [one.fishId, one]))}>
      <FishFace {...props} />
    </FishPicturesContext>
  );
}

const sexes: readonly Sex[] = ['MALE', 'FEMALE', 'UNSEXED', 'UNCERTAIN'];
const dispositions: readonly Disposition[] = [
  'UNSORTED',
  'KEEPER',
  'HOLD',
  'CULLED',
  'PLACED',
  'DIED',
  'ELSEWHERE',
];
const ownStep: CareStep = { ...aStep, basis: 'OWN', published: [] };

/** A fish, its parents, what it may carry and what a brood should show. */
export const fishParts: Parts = {
  SexMark: {
    'each sex': () => sexes.map((sex) => <SexMark key={sex} sex={sex} />),
    'the word for the ear only': () => sexes.map((sex) => <SexMark key={sex} sex={sex} bare />),
  },
  DispositionMark: {
    each: () =>
      dispositions.map((disposition) => (
        <p key={disposition}>
          <DispositionMark disposition={disposition} />
        </p>
      )),
  },
  PlaceMark: {
    'with a partner': () => (
      <PlaceMark fish={{ place: 'PARTNER', notShared: [], swimsWith: { name: 'Ines' } }} />
    ),
    'not known': () => <PlaceMark fish={{ place: 'UNKNOWN', notShared: [], swimsWith: null }} />,
    'not shared': () => (
      <PlaceMark fish={{ place: 'UNKNOWN', notShared: ['PLACE'], swimsWith: null }} />
    ),
    'here: nothing is said': () =>
      emptyBox(<PlaceMark fish={{ place: 'HERE', notShared: [], swimsWith: null }} />),
  },
  FishLink: {
    known: () => <FishLink fish={sire} />,
    'whose record is not shared': () => <FishLink fish={{ ...sire, id: null, tag: 'not shown' }} />,
    unknown: () => <FishLink fish={null} />,
    'a parent nobody knows': () => (
      <FishLink fish={{ id: 'u1', tag: 'sire of T24-07', unknownParentOf: 's1' }} />
    ),
  },
  PairLinks: {
    'both known': () => <PairLinks sire={sire} dam={dam} />,
    'one known': () => <PairLinks sire={null} dam={dam} />,
  },
  InbreedingPaths: {
    'a path chosen': () => (
      <InbreedingPaths inbreeding={anInbreeding} chosen={0} onChoose={nothing} />
    ),
    'more than are listed': () => (
      <InbreedingPaths
        inbreeding={{
          ...anInbreeding,
          complete: false,
          pathCount: null,
          ancestorCount: 30,
          coefficient: 0.4,
          explainedShare: 0.625,
        }}
      />
    ),
    'no common ancestor': () => (
      <InbreedingPaths inbreeding={{ ...anInbreeding, coefficient: 0 }} />
    ),
  },
  GenotypeChances: {
    'sampled and exact': () => (
      <GenotypeChances
        chances={[
          { genotype: 'Dt/dt', phenotype: 'single tail', probability: 2 / 3, standardError: null },
          { genotype: 'Dt/Dt', phenotype: longWords, probability: 1 / 3, standardError: 0.004 },
          { genotype: 'dt/dt', phenotype: 'double tail', probability: 0, standardError: null },
        ]}
      />
    ),
  },
  CrossClasses: {
    'classes, some not worked out': () => <CrossClasses cross={aCross} />,
    'no locus known': () => <CrossClasses cross={{ ...aCross, classes: [], notComputed: [] }} />,
  },
  DrawnLook: {
    'with a drawing': () => (
      <DrawnLook words="steel blue" parts={[{ locusIds: ['bl'], phenotype: 'steel' }]} />
    ),
    'words alone': () => (
      <DrawnLook words={longWords} parts={[{ locusIds: ['spotted'], phenotype: 'spotted' }]} />
    ),
  },
  FishFace: {
    'a photo in a row': () => <Faced fish={sire} />,
    'drawn, larger': () => <Faced fish={dam} size="card" />,
  },
  FitResult: {
    'chi-square': () => <FitResult fit={aFit} />,
    'classes tested together, by random draws': () => (
      <FitResult
        fit={{
          ...aFit,
          method: 'random draws',
          statistic: null,
          degreesOfFreedom: null,
          pValue: 0.0002,
          standardError: 0.001,
          pooled: ['together: steel blue and double tail'],
        }}
      />
    ),
  },
  CareBasis: {
    published: () => <CareBasis step={aStep} />,
    'common practice': () => <CareBasis step={{ ...aStep, basis: 'PRACTICE' }} />,
    own: () => <CareBasis step={ownStep} />,
  },
  CareWhy: {
    'two reasons and a window': () => (
      <CareWhy
        step={aStep}
        reasons={[{ ...aReason, after: 'first', decides: false }, aReason]}
        from="2026-03-12T08:00:00Z"
        to="2026-03-13T20:00:00Z"
      />
    ),
    'no window': () => <CareWhy step={ownStep} reasons={[]} from={null} to={null} />,
  },
  PublishedFigures: {
    one: () => <PublishedFigures step={aStep} />,
    none: () => emptyBox(<PublishedFigures step={ownStep} />),
  },
};
