import { useMemo } from 'react';
import type { LineFigures } from '../../api/line-health.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Why } from '../../components/why.js';
import { FounderShares } from '../../drawings/index.js';
import { percent, plural } from '../../wording/figures.js';
import { sourceText } from '../../wording/line-health-words.js';
import { SourceLink } from './source-link.js';
import styles from './line-health.module.css';
import type { LineHealth } from '../../api/line-health.js';
import type { Column } from '../../components/data-table.js';

/** Founders' shares over the generations, and what is left of each in the fish in use. */
export function FoundersSection({ figures }: { figures: LineFigures }) {
  const { sharesOverTime, founders } = figures;
  const drawn = useMemo(
    () => ({
      founders: sharesOverTime.founders.map(({ fish, unknownParent }) => ({
        id: unknownParent ? `${fish.id} parent` : fish.id,
        tag: sourceText(fish.tag, unknownParent),
      })),
      generations: sharesOverTime.generations.map(({ generation, count, shares }) => ({
        label: String(generation),
        fishCount: count,
        shares,
      })),
    }),
    [sharesOverTime],
  );
  const simulated = founders.some((founder) => founder.standardError > 0);
  return (
    <Section title="Founders" aside={plural(founders.length, 'founder')}>
      <div className={styles['drawing-frame']}>
        <FounderShares {...drawn} title="Founders’ shares, generation by generation" />
      </div>
      <h3>What is left of each founder in the fish in use</h3>
      <WhySharesAndGenes simulated={simulated} />
      <DataTable
        caption="Founders by their share in the fish in use"
        low
        rows={founders}
        rowKey={({ fish, unknownParent }) => `${fish.id} ${String(unknownParent)}`}
        columns={founderColumns()}
      />
    </Section>
  );
}

function WhySharesAndGenes({ simulated }: { simulated: boolean }) {
  return (
    <Why
      about="Founders’ shares and genes left"
      figure="Share among the fish in use, genes left, any left"
    >
      <p className="lw-words">
        These figures are for the fish in use, which may be of more than one generation: the last
        generation of the drawing may show another share. Share among the fish in use: the chance
        that a gene drawn from a fish in use came down from that founder (each generation halves
        it). Genes left: the part of the founder’s own genes that at least one fish in use still
        has, on average over all genes. Any left: the chance that at least one of its two copies of
        a gene is still there. The unknown parent of a half-known fish counts as a founder of which
        one gene came in. Source: Lacy RC (1989) Zoo Biology 8:111-123.{' '}
        {simulated
          ? 'Genes left were found by following the genes down the pedigree 1,000 times by chance, with the same random numbers each time; the error stands beside them.'
          : 'All are exact for the recorded pedigree.'}
      </p>
    </Why>
  );
}

function founderColumns(): readonly Column<
  NonNullable<LineHealth['figures']>['founders'][number]
>[] {
  return [
    { key: 'founder', title: 'Founder', cell: (row) => <SourceLink {...row} /> },
    {
      key: 'share',
      title: 'Share in use',
      number: true,
      cell: ({ contribution }) => percent(contribution, 1),
    },
    {
      key: 'left',
      title: 'Genes left',
      number: true,
      cell: ({ retention, standardError }) =>
        standardError > 0
          ? `${percent(retention, 1)} ± ${percent(standardError, 1)}`
          : percent(retention, 1),
    },
    {
      key: 'chance',
      title: 'Any left',
      number: true,
      cell: ({ survival }) => percent(survival, 1),
    },
  ];
}
