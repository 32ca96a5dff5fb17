import type { Club } from '../../api/club.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { percent, plural } from '../../wording/figures.js';

type Founder = Club['founders'][number];

/** From this chance on a line is said to hold a founder's blood; the server sorts by the same. */
const HELD = 0.05;

/** Who holds what is left of each founder; those that one line alone holds first. */
export function FoundersHeld({ club }: { club: Club }) {
  const { founders, lines, foundersLeftOut, drops } = club;
  const last = founders.filter(({ onlyIn }) => onlyIn !== null).length;
  return (
    <Section title="Who holds a founder’s blood" aside={`${last} in one line only`}>
      <p className="lw-words">
        For each founder the lines that still hold any of its genes with a chance of 1 in 20 or
        more, by {drops} gene drops (MacCluer and others 1986; from memory), and its expected share
        in the genes of their fish in use. A founder that one line alone holds is lost with it.
        Whoever you do not see is not named.
      </p>
      <DataTable
        caption="Founders and the lines that hold them"
        low
        rows={founders.map((founder, place) => ({ ...founder, place }))}
        rowKey={({ place }) => String(place)}
        columns={[
          { key: 'founder', title: 'Founder', cell: FounderName },
          {
            key: 'lines',
            title: 'Held by',
            cell: (founder) => heldBy(founder, lines),
          },
          {
            key: 'only',
            title: 'Only one line',
            wideOnly: true,
            cell: ({ onlyIn }) => (onlyIn === null ? '' : 'yes'),
          },
        ]}
      />
      {foundersLeftOut > 0 && (
        <p className="lw-quiet">{plural(foundersLeftOut, 'more founder')} are not listed.</p>
      )}
    </Section>
  );
}

function FounderName({ fish, unknownParent, place }: Founder & { place: number }) {
  if (fish === null) return <>A founder not shown to you ({place + 1})</>;
  return (
    <>
      {unknownParent && 'unknown parent of '}
      {fish.unknownParentOf === null ? <FishLink fish={fish} /> : fish.tag}
    </>
  );
}

const heldBy = ({ shares, chances }: Founder, lines: Club['lines']): string =>
  lines
    .flatMap(({ code, keeper }, k) =>
      (chances[k] ?? 0) < HELD ? [] : [`${code} (${keeper.name}): ${percent(shares[k] ?? 0, 1)}`],
    )
    .join(', ') || 'hardly any line';
