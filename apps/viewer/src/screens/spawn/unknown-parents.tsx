import { Button } from '@mantine/core';
import { STAND_IN_PARENTS, type SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';

/** Sibs whose parents have no record would count as unrelated: says so, and offers the remedy. */
export function UnknownParents({ spawn }: { spawn: SpawnFacts }) {
  const { save, saving, problem } = useSave(STAND_IN_PARENTS);
  const missing = [spawn.sire === null && 'sire', spawn.dam === null && 'dam'].filter(Boolean);
  if (missing.length === 0 || spawn.fishCount < 2 || spawn.withdrawn !== null) return null;
  return (
    <div className="lw-notice lw-notice-caution" role="note">
      <p>
        The {missing.join(' and the ')} of these {spawn.fishCount} fish{' '}
        {missing.length === 1 ? 'is' : 'are'} unknown, so they count as{' '}
        {missing.length === 1 ? 'half sibs' : 'unrelated'} and F comes out too low. A stand-in
        record for each unknown parent makes them the full sibs they are.
      </p>
      <ProblemNotice problem={problem} />
      <Button loading={saving} onClick={() => void save({ spawnId: spawn.id })}>
        Record stand-in parents
      </Button>
    </div>
  );
}
