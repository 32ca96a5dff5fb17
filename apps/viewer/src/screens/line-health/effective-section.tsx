import type { LineFigures } from '../../api/population.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { StockFigures } from '../../components/stock-figures.js';
import { percent } from '../../wording/figures.js';
import { figureWords } from '../../wording/line-health-words.js';
import { SourceLink } from './source-link.js';

/** Effective numbers and sizes, figures of unlike kinds kept apart. */
export function EffectiveSection({ figures }: { figures: LineFigures }) {
  const { effective, ancestors } = figures;
  return (
    <>
      <Section title="Effective numbers">
        <div className="lw-two-up">
          <div>
            <h3>Of founders and ancestors</h3>
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
            <h3>Of genomes: two figures of unlike kinds</h3>
            <StockFigures
              figures={[
                { words: figureWords.genomesByRetention, figure: effective.genomesByRetention },
                { words: figureWords.genomesByKinship, figure: effective.genomesByKinship },
              ]}
            />
            <p className="lw-quiet">
              The first asks what is left of each founder, the second how alike the fish are. Their
              names are alike and they are not: never compare one with the other.
            </p>
          </div>
        </div>
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
          The number of fish of an ideal stock that would lose variety as fast. The first two look
          back over the pedigree; the last two look at the parents of the fish in use alone, and
          differ from them where the line was narrower before.
        </p>
      </Section>
    </>
  );
}

function MainAncestors({ ancestors }: Pick<LineFigures, 'ancestors'>) {
  return (
    <DataTable
      caption="Ancestors that explain most"
      low
      rows={ancestors}
      rowKey={({ fish, unknownParent }) => `${fish.id} ${String(unknownParent)}`}
      columns={[
        { key: 'ancestor', title: 'Ancestor', cell: (row) => <SourceLink {...row} /> },
        {
          key: 'alone',
          title: 'Explains alone',
          number: true,
          cell: ({ marginal }) => percent(marginal, 1),
        },
        { key: 'total', title: 'In all', number: true, cell: ({ total }) => percent(total, 1) },
      ]}
    />
  );
}
