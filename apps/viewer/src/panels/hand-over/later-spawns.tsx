import { Button } from '@mantine/core';
import { useState } from 'react';
import { type HandOver, LATER_SPAWNS, type LaterSpawn } from '../../api/hand-overs.js';
import { useRead } from '../../api/use-read.js';
import { Shown } from '../../components/states.js';
import { stageWord } from '../../wording/words.js';

/** What the giver is told of spawns since the fish moved: parents, day and counts. */
export function LaterSpawns({ handOvers }: { handOvers: readonly HandOver[] }) {
  const [shown, setShown] = useState(false);
  const tags = handOvers.map(({ tag }) => tag).join(', ');
  if (!shown)
    return (
      <Button size="xs" aria-label={`Spawns since then: ${tags}`} onClick={() => setShown(true)}>
        Spawns since then
      </Button>
    );
  return (
    <>
      {handOvers.map(({ id }) => (
        <SpawnsOf key={id} id={id} />
      ))}
    </>
  );
}

function SpawnsOf({ id }: { id: string }) {
  const read = useRead(LATER_SPAWNS, { id });
  return (
    <Shown read={read} what="the spawns">
      {({ handOver: { laterSpawns } }) =>
        laterSpawns.length === 0 ? (
          <p className="lw-quiet">No spawn on record since it moved.</p>
        ) : (
          <ul className="lw-words">
            {laterSpawns.map((spawn) => (
              <li key={spawn.id}>{spawnWords(spawn)}</li>
            ))}
          </ul>
        )
      }
    </Shown>
  );
}

function spawnWords({ day, sireTag, damTag, failed, counts }: LaterSpawn): string {
  const parents = `${sireTag ?? 'not known'} × ${damTag ?? 'not known'}`;
  const counted = counts.map(({ number, stage }) => `${number} ${stageWord[stage]}`);
  const came = failed ? ['nothing came of it'] : counted;
  return [`${day ?? 'day not known'}: ${parents}`, ...came].join(', ');
}
