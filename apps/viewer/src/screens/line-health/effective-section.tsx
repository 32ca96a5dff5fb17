import type { LineFigures } from '../../api/line-health.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { StockFigures } from '../../components/stock-figures.js';
import { percent } from '../../wording/figures.js';
import { figureWords } from '../../wording/line-health-words.js';
import { SourceLink } from './source-link.js';
import type { LineHealth } from '../../api/line-health.js';

/** Effective numbers and sizes, figures of unlike kinds kept apart. */
export function EffectiveSection({ figures }: { figures: LineFigures }) {
  const { effective, ancestors } = figures;
  return (
    <>
      <Section title="Effective numbers">
        <FoundersAndGenomes effective={effective} ancestors={ancestors} />
      </Section>
      <Section title="Effective size, by each method">
        <StockFigures
          figures={[
            { words: figureWords.sizeFromInbreeding, figure: effective.sizeFromInbreeding },
            { words: figureWords.sizeFromRate, figure: effective.sizeFromRate },
            { words: figureWords.sizeFromSexes, figure: effective.sizeFromSexes },
            { words: figureWords.sizeFromFamilies, figure: effective.sizeFromFamilies },
          ]}
        />
        <p className="lw-quiet">
          The number of fish of an ideal stock that would lose variety as fast. The first two cover
          the whole pedigree; the last two only the parents of the fish in use, and they differ from
          the first where the line had fewer parents before.
        </p>
      </Section>
    </>
  );
}

interface FoundersAndGenomesProps {
  effective: NonNullable<LineHealth['figures']>['effective'];
  ancestors: NonNullable<LineHealth['figures']>['ancestors'][number][];
}

function FoundersAndGenomes({ effective, ancestors }: FoundersAndGenomesProps) {
  return (
    <div className="lw-two-up">
      <div>
        <h3>Founders and ancestors</h3>
        <StockFigures
          figures={[
            { words: figureWords.founders, figure: effective.founders },
            {
              words: figureWords.ancestors,
              figure: effective.ancestors,
              more: <MainAncestors ancestors={ancestors} />,
            },
          ]}
        />
      </div>
      <div>
        <h3>Genomes: two different figures</h3>
        <StockFigures
          figures={[
            { words: figureWords.genomesByRetention, figure: effective.genomesByRetention },
            { words: figureWords.genomesByKinship, figure: effective.genomesByKinship },
          ]}
        />
        <p className="lw-quiet">
          The first shows what is left of each founder, the second how similar the fish are. Their
          names are similar, but they measure different things: never compare one with the other.
        </p>
      </div>
    </div>
  );
}

const ancestorColumns: readonly Column<LineFigures['ancestors'][number]>[] = [
  { key: 'ancestor', title: 'Ancestor', cell: (row) => <SourceLink {...row} /> },
  { key: 'alone', title: 'Own share', number: true, cell: ({ marginal }) => percent(marginal, 1) },
  { key: 'total', title: 'Total so far', number: true, cell: ({ total }) => percent(total, 1) },
];

function MainAncestors({ ancestors }: Pick<LineFigures, 'ancestors'>) {
  const others = 1 - (ancestors.at(-1)?.total ?? 1);
  return (
    <>
      <DataTable
        caption="Ancestors that explain most"
        low
        rows={ancestors}
        rowKey={({ fish, unknownParent }) => `${fish.id} ${String(unknownParent)}`}
        columns={ancestorColumns}
      />
      {others > 0.0005 && (
        <p className="lw-quiet">
          The {ancestors.length} that explain most are listed; others explain the remaining{' '}
          {percent(others, 1)}.
        </p>
      )}
    </>
  );
}
