import { Button } from '@mantine/core';
import { Link } from 'react-router';
import type { Club, ClubLine } from '../../api/club.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { plural } from '../../wording/figures.js';
import { leastPercent } from '../../wording/inbreeding-words.js';

interface OutcrossLinesProps {
  club: Club;
  lineId: string | null;
  onAsk: (line: ClubLine) => void;
}

/** The shown lines, those least related to the chosen one first. */
export function OutcrossLines({ club, lineId, onAsk }: OutcrossLinesProps) {
  const chosen = club.lines[0]?.id === lineId ? club.lines[0] : undefined;
  const others = club.lines.filter((line) => line !== chosen);
  return (
    <Section title="Where an outcross is to be found" aside={plural(others.length, 'line')}>
      {chosen !== undefined && (
        <p className="lw-words">
          Expected F of young of {chosen.code} with each line: the mean coancestry between the fish
          in use of the two (Malécot 1948; from memory), over the whole pedigree. The lowest stands
          first. What F does not tell: whether the fish are sound, and whether their looks suit.
          Keep fish that come in apart from yours for some weeks.
        </p>
      )}
      <DataTable
        caption="Lines of the club"
        rows={others}
        rowKey={({ id }) => id}
        columns={columnsFor(chosen, onAsk)}
      />
      {club.linesLeftOut > 0 && (
        <p className="lw-quiet">{plural(club.linesLeftOut, 'more line')} shown are not listed.</p>
      )}
    </Section>
  );
}

const useOf = ({ inUse }: ClubLine): number => inUse;

function expectedText(line: ClubLine, chosen: ClubLine | undefined): string {
  const value = line.kinship[0];
  if (chosen === undefined) return '–';
  if (value === null || value === undefined) return 'no fish in use';
  return leastPercent(value, !line.atLeast && !chosen.atLeast);
}

const columnsFor = (
  chosen: ClubLine | undefined,
  onAsk: OutcrossLinesProps['onAsk'],
): readonly Column<ClubLine>[] => [
  {
    key: 'line',
    title: 'Line',
    cell: ({ id, code, name, mine }) =>
      mine ? (
        <Link to={`/lines/${id}`}>
          {code} {name}
        </Link>
      ) : (
        `${code} ${name}`
      ),
  },
  { key: 'keeper', title: 'Keeper', cell: ({ keeper }) => keeper.name },
  {
    key: 'kinship',
    title: 'Expected F',
    number: true,
    cell: (line) => expectedText(line, chosen),
  },
  { key: 'use', title: 'Fish in use', number: true, wideOnly: true, cell: useOf },
  {
    key: 'looks',
    title: 'Looks of several fish',
    wideOnly: true,
    cell: ({ looks }) => looks.join(', ') || 'none noted',
  },
  {
    key: 'ask',
    title: <span className="lw-heard">What to do</span>,
    cell: (line) =>
      !line.mine && (
        <Button
          size="xs"
          aria-label={`Ask ${line.keeper.name} about ${line.code}`}
          onClick={() => onAsk(line)}
        >
          Ask
        </Button>
      ),
  },
];
