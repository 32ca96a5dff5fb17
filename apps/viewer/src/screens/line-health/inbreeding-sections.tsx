import {
  allKnown,
  INBREEDING_MARKS,
  leastMeanText,
  leastPercent,
  leastText,
} from '../../wording/inbreeding-words.js';
import { useMemo } from 'react';
import { useNavigate } from 'react-router';
import type { LineFigures } from '../../api/line-health.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { asPercent, StockFigures } from '../../components/stock-figures.js';
import { GenerationPlot } from '../../drawings/index.js';
import { ageText, percent, plainNumber, plural } from '../../wording/figures.js';
import { figureWords } from '../../wording/line-health-words.js';
import { drawnBasis } from '../pedigree/drawn-fish.js';
import styles from './line-health.module.css';
import type { LineHealth } from '../../api/line-health.js';
import type { Column } from '../../components/data-table.js';

const guides = [
  { at: 0.125, label: 'half sibs' },
  { at: 0.25, label: 'full sibs' },
  { at: 0.375, label: 'two generations of full sibs' },
] as const;

const forebears = ['parents', 'grandparents', 'great-grandparents'];

interface InbreedingSectionsProps {
  figures: LineFigures;
  code: string;
  /** How many fish the figures are about. */
  counted: string;
}

const rangeOf = ({ lowestInbreeding, highestInbreeding }: LineFigures): string => {
  const [lowest, highest] = [percent(lowestInbreeding), percent(highestInbreeding)];
  return lowest === highest ? `${lowest} in each` : `from ${lowest} to ${highest}`;
};

/** Where the fish in use stand, and how F came to be over the generations. */
export function InbreedingSections({ figures, code, counted }: InbreedingSectionsProps) {
  return (
    <>
      <Section title="The fish in use" aside={counted}>
        <StockFigures figures={[...kinshipFigures(figures), ...pedigreeFigures(figures)]} />
      </Section>
      <Section title="F by generation">
        <ByGeneration figures={figures} code={code} />
        <StockFigures
          figures={[{ words: figureWords.rate, figure: figures.rate, write: asPercent }]}
        />
      </Section>
    </>
  );
}

/** How related the fish are; least figures where some are not known. */
function kinshipFigures(figures: LineFigures) {
  const least = leastMeanText(figures.kinship);
  const meanBeside = least === null ? {} : { beside: least };
  const write = (value: number) => leastPercent(value, allKnown(figures.kinship));
  return [
    {
      ...{ words: figureWords.inbreeding, figure: figures.inbreeding, write },
      beside: `${rangeOf(figures)}${leastText(figures.kinship)}`,
    },
    { words: figureWords.maleByFemale, figure: figures.maleByFemale, write, ...meanBeside },
    { words: figureWords.meanKinship, figure: figures.meanKinship, write, ...meanBeside },
  ];
}

const pedigreeFigures = (figures: LineFigures) => [
  {
    words: figureWords.completeness,
    figure: figures.completeness,
    beside: knownText(figures.completenessByGeneration),
  },
  {
    words: figureWords.generationInterval,
    figure: figures.generationInterval,
    write: (days: number) => `${Math.round(days)} d (${ageText(days)})`,
  },
];

const knownText = (known: readonly number[]): string => {
  const parts = known
    .filter((share) => share > 0)
    .map((share, back) => `${percent(share, 0)} of ${forebears[back] ?? `generation ${back + 1}`}`);
  return parts.length === 0 ? 'no parent is known' : `known: ${parts.join(', ')}`;
};

const ofGeneration = ({ notKnownCount }: { notKnownCount: number }, value: number): string =>
  leastPercent(value, notKnownCount === 0);

interface ByGenerationProps {
  figures: LineFigures;
  code: string;
}

function ByGeneration({ figures, code }: ByGenerationProps) {
  const { points, byGeneration } = figures;
  const fish = byGeneration.reduce((sum, { count }) => sum + count, 0);
  return (
    <>
      <p className="lw-quiet">
        {plural(fish, 'fish', 'fish')} recorded in the line, in use or not. A fish’s generation is
        the longest line of descent that leads to it from a founder.
      </p>
      {points === null ? (
        <GenerationTable byGeneration={byGeneration} />
      ) : (
        <DrawnGenerations points={points} code={code} />
      )}
    </>
  );
}

interface DrawnGenerationsProps {
  points: NonNullable<LineFigures['points']>;
  code: string;
}

function DrawnGenerations({ points, code }: DrawnGenerationsProps) {
  const navigate = useNavigate();
  const drawn = useMemo(
    () =>
      points.map((point) => ({
        id: point.fish.id,
        tag: point.fish.tag,
        generation: point.generation,
        inbreeding: point.inbreedingCoefficient,
        basis: drawnBasis[point.inbreedingBasis],
      })),
    [points],
  );
  const least = leastText(points);
  return (
    <>
      {least !== '' && <p className="lw-quiet">F by generation{least}</p>}
      <div className={styles['drawing-frame']}>
        <GenerationPlot
          points={drawn}
          guides={guides}
          onOpenFish={(id) => void navigate(`/fish/${id}`)}
          title={`F by generation, line ${code}`}
        />
      </div>
    </>
  );
}

/** In place of a drawing, where there are too many fish for one. */
function GenerationTable({ byGeneration }: Pick<LineFigures, 'byGeneration'>) {
  return (
    <>
      {byGeneration.some(({ notKnownCount }) => notKnownCount > 0) && (
        <p className="lw-quiet">{INBREEDING_MARKS}</p>
      )}
      <DataTable
        caption="F by generation"
        low
        rows={byGeneration}
        rowKey={(row) => String(row.generation)}
        columns={generationColumns()}
      />
    </>
  );
}

function generationColumns(): readonly Column<
  NonNullable<LineHealth['figures']>['byGeneration'][number]
>[] {
  return [
    { key: 'g', title: 'Generation', number: true, cell: (row) => row.generation },
    { key: 'n', title: 'Fish', number: true, cell: (row) => row.count },
    {
      key: 'mean',
      title: 'Mean F',
      number: true,
      cell: (row) => ofGeneration(row, row.mean),
    },
    {
      key: 'least',
      title: 'Lowest',
      number: true,
      cell: (row) => ofGeneration(row, row.lowest),
    },
    {
      key: 'most',
      title: 'Highest',
      number: true,
      cell: (row) => ofGeneration(row, row.highest),
    },
    {
      key: 'known',
      title: 'Full generations',
      number: true,
      cell: (row) => plainNumber(row.meanEquivalents, 1),
    },
  ];
}
