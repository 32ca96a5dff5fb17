import { Link } from 'react-router';
import { FISH_FAMILY } from '../../api/fish.js';
import type { ResultOf } from '../../api/graphql.js';
import { useRead } from '../../api/use-read.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { plural } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';

type Family = ResultOf<typeof FISH_FAMILY>['fish'];

/** Spawns the fish is a parent of, and its sibs. */
export function FishFamilySections({ fishId }: { fishId: string }) {
  const read = useRead(FISH_FAMILY, { id: fishId });
  return (
    <Shown read={read} what="the family">
      {({ fish }) => (
        <div className="lw-columns">
          <SpawnsAsParent fishId={fishId} spawns={fish.spawnsAsParent} />
          <Sibs fishId={fishId} spawn={fish.spawn} />
        </div>
      )}
    </Shown>
  );
}

interface SpawnsAsParentProps {
  fishId: string;
  spawns: Family['spawnsAsParent'];
}

const parentColumns = (fishId: string): readonly Column<Family['spawnsAsParent'][number]>[] => [
  {
    key: 'tag',
    title: 'Spawn',
    cell: (spawn) => <Link to={`/spawns/${spawn.id}`}>{spawn.tag}</Link>,
  },
  {
    key: 'mate',
    title: 'With',
    cell: (spawn) => <FishLink fish={spawn.sire?.id === fishId ? spawn.dam : spawn.sire} />,
  },
  {
    key: 'on',
    title: 'Spawned',
    number: true,
    cell: (spawn) => (spawn.failed ? 'failed' : (spawn.spawnedOn ?? '')),
  },
  { key: 'fish', title: 'Fish', number: true, cell: (spawn) => spawn.fishCount },
  { key: 'f', title: 'F', number: true, cell: (spawn) => inbreedingText(spawn) },
];

function SpawnsAsParent({ fishId, spawns }: SpawnsAsParentProps) {
  return (
    <Section title="Spawns as parent" aside={spawns.length || undefined}>
      {spawns.length === 0 ? (
        <Empty>No spawn yet. Plan one under “Next pairing”, or record one under “Spawns”.</Empty>
      ) : (
        <DataTable
          caption="Spawns as parent"
          rows={spawns}
          rowKey={(spawn) => spawn.id}
          columns={parentColumns(fishId)}
        />
      )}
    </Section>
  );
}

interface SibsProps {
  fishId: string;
  spawn: Family['spawn'];
}

function Sibs({ fishId, spawn }: SibsProps) {
  const sibs = spawn?.fish.filter((each) => each.id !== fishId) ?? [];
  const aside =
    spawn === null ? undefined : `${plural(sibs.length, 'other')} recorded from spawn ${spawn.tag}`;
  return (
    <Section title="Sibs" aside={aside}>
      {sibs.length === 0 ? (
        <Empty>No sib from the same spawn has a record of its own.</Empty>
      ) : (
        <DataTable
          caption="Sibs from the same spawn"
          rows={sibs}
          rowKey={(sib) => sib.id}
          columns={[
            {
              key: 'tag',
              title: 'Tag',
              cell: (sib) => <FishLink fish={{ id: sib.id, tag: sib.tag }} />,
            },
            { key: 'sex', title: 'Sex', cell: (sib) => <SexMark sex={sib.sex} /> },
            {
              key: 'now',
              title: 'Decision',
              cell: (sib) => <DispositionMark disposition={sib.disposition} />,
            },
          ]}
        />
      )}
    </Section>
  );
}
