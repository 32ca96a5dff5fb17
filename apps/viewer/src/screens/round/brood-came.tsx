import type { PurposeContent } from '../../api/line-purpose.js';
import { BROOD_CAME, type RoundPair, type RoundSpawn } from '../../api/round-course.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { FishLink } from '../../components/fish-marks.js';
import { Shown } from '../../components/states.js';
import { percent, plainNumber } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { stageWord } from '../../wording/words.js';
import { lookText, traitAimText, type LookNames } from '../line-purpose/purpose-words.js';
import { type BroodCame, type ScoredYoung, whatCame } from './what-came.js';

interface BroodProps {
  pair: RoundPair;
  spawn: RoundSpawn;
  content: PurposeContent;
  names: LookNames;
}

/** One brood of a round: what was expected of it beside what came. */
export function Brood({ pair, spawn, content, names }: BroodProps) {
  const read = useRead(BROOD_CAME, { id: spawn.id });
  if (spawn.failed)
    return <p>The spawn failed{spawn.failedReason === null ? '' : `: ${spawn.failedReason}`}.</p>;
  return (
    <Shown read={read} what={`what came of ${spawn.tag}`}>
      {(data) => {
        const came = whatCame(data.spawn, content);
        return (
          <>
            <BroodFacts pair={pair} came={came} />
            <Wishes content={content} came={came} names={names} spawn={spawn} />
          </>
        );
      }}
    </Shown>
  );
}

function BroodFacts({ pair, came }: { pair: RoundPair; came: BroodCame }) {
  const counts = came.counts.map(({ stage, number }) => `${number} ${stageWord[stage]}`);
  return (
    <Facts
      facts={[
        { name: 'F expected', value: percent(pair.expectedInbreeding) },
        { name: 'F by the records now', value: inbreedingText(pair.pairing) },
        { name: 'Counted', value: counts.join(', ') },
        { name: 'Died, culled', value: `${came.died}, ${came.culled}` },
        {
          name: 'Young on record',
          value: `${came.recorded}${came.unsorted > 0 ? `, ${came.unsorted} of them not sorted` : ''}`,
        },
        {
          name: 'Kept',
          value:
            came.kept.length === 0
              ? 'none so far'
              : came.kept.map((fish, k) => (
                  <span key={fish.id}>
                    {k > 0 && ', '}
                    <FishLink fish={fish} />
                  </span>
                )),
        },
      ]}
    />
  );
}

const scoredText = ({ scored, mean, passing }: ScoredYoung, standard: boolean): string =>
  mean === null
    ? 'none scored'
    : `${plainNumber(mean, 1)} (${scored} scored${standard ? `, ${passing} pass` : ''})`;

function Wishes({
  content,
  came,
  names,
  spawn,
}: Pick<BroodProps, 'content' | 'names' | 'spawn'> & { came: BroodCame }) {
  const rows = [
    ...content.traits.map((aim, k) => {
      const standard = aim.low !== null || aim.high !== null;
      const { all, kept } = came.traits[k]!;
      return {
        ...{ name: aim.trait.name, wish: traitAimText(aim) },
        ...{ all: scoredText(all, standard), kept: scoredText(kept, standard) },
      };
    }),
    ...content.looks.map((aim, k) => {
      const { known, showing } = came.looks[k]!;
      return {
        ...{ name: lookText(aim, names), wish: aim.wanted ? 'wanted' : 'not wanted' },
        all: known === 0 ? 'none noted' : `${showing} of ${known} show it`,
        kept: '',
      };
    }),
  ];
  if (rows.length === 0) return null;
  return (
    <DataTable
      caption={`What was wished for and what came of ${spawn.tag}`}
      rows={rows.map((row, k) => ({ ...row, key: String(k) }))}
      rowKey={({ key }) => key}
      columns={[
        { key: 'name', title: 'Wish', cell: ({ name }) => name },
        { key: 'wish', title: 'As it was said', wideOnly: true, cell: ({ wish }) => wish },
        { key: 'all', title: 'All young', cell: ({ all }) => all },
        { key: 'kept', title: 'Kept', cell: ({ kept }) => kept },
      ]}
    />
  );
}
