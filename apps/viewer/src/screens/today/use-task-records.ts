import { useCallback, useState } from 'react';
import { RECORD_CARE, SKIP_CARE, UNDO_CARE, type CareTask } from '../../api/care.js';
import type { Problem } from '../../api/problem.js';
import { useSave } from '../../api/use-save.js';
import { now, zoneHere } from '../../clock/clock.js';
import { newId } from '../../api/new-id.js';
import type { Recorded } from './just-done.js';

export interface TaskRecords {
  done: (task: CareTask, at: string, note: string | null) => void;
  skip: (task: CareTask, reason: string) => void;
  undo: (recorded: Recorded) => void;
  last: Recorded | null;
  saving: boolean;
  undoing: boolean;
  problem: Problem | null;
}

/** Recording tasks, one tap each; the id is made here, so that a tap sent twice is recorded once. */
export function useTaskRecords(): TaskRecords {
  const recording = useSave(RECORD_CARE);
  const skipping = useSave(SKIP_CARE);
  const undoing = useSave(UNDO_CARE);
  const [last, setLast] = useState<Recorded | null>(null);
  const { save: record } = recording;
  const { save: leaveOut } = skipping;
  const { save: takeBack } = undoing;

  const done = useCallback(
    async (task: CareTask, at: string, note: string | null) => {
      const input = {
        id: newId(),
        spawnId: task.spawn.id,
        step: task.step.id,
        at,
        note,
        zone: zoneHere(),
      };
      const saved = await record({ input });
      if (saved === null) return;
      setLast({
        entryId: saved.recordCare,
        spawnId: task.spawn.id,
        what: `Recorded: ${task.step.title}, ${task.spawn.tag}.`,
      });
    },
    [record],
  );
  const skip = useCallback(
    async (task: CareTask, reason: string) => {
      const input = {
        id: newId(),
        spawnId: task.spawn.id,
        step: task.step.id,
        at: now().toISOString(),
        reason,
      };
      const saved = await leaveOut({ input });
      if (saved === null) return;
      setLast({
        entryId: saved.skipCare,
        spawnId: task.spawn.id,
        what: `Skipped: ${task.step.title}, ${task.spawn.tag}.`,
      });
    },
    [leaveOut],
  );
  const undo = useCallback(
    async ({ spawnId, entryId }: Recorded) => {
      if ((await takeBack({ input: { spawnId, entryId, zone: zoneHere() } })) !== null)
        setLast(null);
    },
    [takeBack],
  );
  return {
    done: (...given) => void done(...given),
    skip: (...given) => void skip(...given),
    undo: (recorded) => void undo(recorded),
    last,
    saving: recording.saving || skipping.saving,
    undoing: undoing.saving,
    problem: recording.problem ?? skipping.problem ?? undoing.problem,
  };
}
