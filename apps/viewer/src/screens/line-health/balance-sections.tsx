import type { LineFigures, UnequalShare } from '../../api/line-health.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { Why } from '../../components/why.js';
import { percent, plural } from '../../wording/figures.js';
import { SourceLink } from './source-link.js';
import styles from './line-health.module.css';
import type { NamedFish } from '../../api/named-fish.js';
import type { Column } from '../../components/data-table.js';
import type { LineHealth } from '../../api/line-health.js';

/** Who gives more than an equal part, and which fish carry the founders about to be lost. */
export function BalanceSections({ figures }: { figures: LineFigures }) {
  return (
    <>
      <OverContributors figures={figures} />
      <RarestFounders figures={figures} />
    </>
  );
}

type Role = 'sire' | 'dam' | 'founder';

function OverContributors({ figures }: { figures: LineFigures }) {
  const { sires, dams, founders } = figures.overContributors;
  const as = (role: Role, shares: readonly UnequalShare[]) =>
    shares.map((share) => ({ role, ...share }));
  const rows = [...as('sire', sires), ...as('dam', dams), ...as('founder', founders)];
  return (
    <Section title="Who contributes more than an equal share">
      <Why
        about="Who contributes more than an equal share"
        figure={`${plural(sires.length, 'sire')}, ${plural(dams.length, 'dam')}, ${plural(founders.length, 'founder')}`}
      >
        <p className="lw-words">
          A sire’s share is half of the part of the fish in use that are his young; the equal share
          is that of all sires of fish in use divided by their number. The same holds for dams. A
          founder’s share is its expected share of the genes; the equal share is one divided by the
          number of founders. In any uneven group about half are above the mean: look for those far
          above it.
        </p>
      </Why>
      {rows.length === 0 ? (
        <p>All contribute equally.</p>
      ) : (
        <DataTable
          caption="Who contributes more than an equal share"
          low
          rows={rows}
          rowKey={({ role, fish, unknownParent }) => `${role} ${fish.id} ${String(unknownParent)}`}
          columns={contributorColumns()}
        />
      )}
    </Section>
  );
}

function contributorColumns(): readonly Column<{
  fish: NamedFish;
  unknownParent: boolean;
  share: number;
  equalShare: number;
  young: number;
  role: Role;
}>[] {
  return [
    { key: 'who', title: 'Fish', cell: (row) => <SourceLink {...row} /> },
    { key: 'role', title: 'As', cell: ({ role }) => role },
    { key: 'share', title: 'Share', number: true, cell: ({ share }) => percent(share, 1) },
    {
      key: 'equal',
      title: 'Equal share',
      number: true,
      cell: ({ equalShare }) => percent(equalShare, 1),
    },
    {
      key: 'young',
      title: 'Young',
      number: true,
      cell: ({ role, young }) => (role === 'founder' ? '' : young),
    },
  ];
}

function RarestFounders({ figures }: { figures: LineFigures }) {
  return (
    <Section title="Fish in use that carry the rarest founders">
      <Why about="Carriers of the rarest founders" figure="The founders with the smallest share">
        <p className="lw-words">
          The share of a fish’s genes from a founder is the mean of its parents’ shares, from 1 in
          the founder itself. Breeding from these fish keeps such a founder’s genes in the line. The
          figure does not say whether they are worth keeping.
        </p>
      </Why>
      <DataTable
        caption="The rarest founders and the fish in use that carry most of them"
        rows={figures.rarestFounders}
        rowKey={({ fish, unknownParent }) => `${fish.id} ${String(unknownParent)}`}
        columns={rareFounderColumns()}
      />
    </Section>
  );
}

function rareFounderColumns(): readonly Column<
  NonNullable<LineHealth['figures']>['rarestFounders'][number]
>[] {
  return [
    { key: 'founder', title: 'Founder', cell: (row) => <SourceLink {...row} /> },
    {
      key: 'part',
      title: 'Share of all genes',
      number: true,
      cell: ({ contribution }) => percent(contribution, 1),
    },
    {
      key: 'carriers',
      title: 'Carried most by',
      cell: ({ carriers, moreAsMuch }) => (
        <ul className={styles['inline-list']}>
          {carriers.map(({ fish, share }) => (
            <li key={fish.id}>
              <FishLink fish={fish} /> {percent(share, 1)}
            </li>
          ))}
          {moreAsMuch > 0 && <li>and {moreAsMuch} more with the same share</li>}
        </ul>
      ),
    },
  ];
}
