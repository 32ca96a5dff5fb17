import { Button } from '@mantine/core';
import { CORRECT_SPAWN, type SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { useMayChange } from '../../session/may.js';
import { ProblemNotice } from '../../components/notice.js';

/** Young of one spawn are full sibs though nobody knows their parents: says so, and lets a mixed brood be marked. */
export function UnknownParents({ spawn }: { spawn: SpawnFacts }) {
  const mayChange = useMayChange();
  const { save, saving, problem } = useSave(CORRECT_SPAWN);
  const missing = [spawn.sire === null && 'sire', spawn.dam === null && 'dam'].filter(Boolean);
  if (missing.length === 0 || spawn.fishCount < 2 || spawn.withdrawn !== null) return null;
  const { id, revision, mixedOrigin, fishCount } = spawn;
  const unknown = `The ${missing.join(' and the ')} of these ${fishCount} fish ${missing.length === 1 ? 'is' : 'are'} unknown.`;
  return (
    <div className="lw-notice lw-notice-caution" role="note">
      <p>
        {mixedOrigin
          ? `${unknown} They are of several broods, so they count as ${missing.length === 1 ? 'half sibs by the known parent' : 'fish of unknown origin, not as sibs'}.`
          : `${unknown} They count as full sibs of one unknown ${missing.length === 1 ? 'parent' : 'pair'}. If they came from several broods, such as a mixed bag from a shop, ${mayChange ? 'say so' : 'their keeper can say so'}.`}
      </p>
      <ProblemNotice problem={problem} />
      {mayChange && (
        <Button
          loading={saving}
          onClick={() => void save({ input: { id, revision, mixedOrigin: !mixedOrigin } })}
        >
          {mixedOrigin ? 'They are full sibs' : 'They are of several broods'}
        </Button>
      )}
    </div>
  );
}
