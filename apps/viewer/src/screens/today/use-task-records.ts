import { useState } from 'react';
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

const inputOf = ({ spawn, step }: CareTask) => ({
  id: newId(),
  spawnId: spawn.id,
  step: step.id,
});

const recorded = (verb: string, { spawn, step }: CareTask, recordId: string): Recorded => ({
  recordId,
  spawnId: spawn.id,
  what: `${verb}: ${step.title}, ${spawn.tag}.`,
});

/** Recording tasks, one tap each; the id is made here, so that a tap sent twice is recorded once. */
export function useTaskRecords(): TaskRecords {
  const recording = useSave(RECORD_CARE);
  const skipping = useSave(SKIP_CARE);
  const undoing = useSave(UNDO_CARE);
  const [last, setLast] = useState<Recorded | null>(null);
  const done = async (task: CareTask, at: string, note: string | null) => {
    const input = { ...inputOf(task), at, note, zone: zoneHere() };
    const saved = await recording.save({ input });
    if (saved !== null) setLast(recorded('Recorded', task, saved.recordCare));
  };
  const skip = async (task: CareTask, reason: string) => {
    const input = { ...inputOf(task), at: now().toISOString(), reason };
    const saved = await skipping.save({ input });
    if (saved !== null) setLast(recorded('Skipped', task, saved.skipCare));
  };
  const undo = async ({ spawnId, recordId }: Recorded) => {
    const saved = await undoing.save({ input: { spawnId, recordId, zone: zoneHere() } });
    if (saved !== null) setLast(null);
  };
  return {
    done: (...given) => void done(...given),
    skip: (...given) => void skip(...given),
    undo: (taken) => void undo(taken),
    last,
    saving: recording.saving || skipping.saving,
    undoing: undoing.saving,
    problem: recording.problem ?? skipping.problem ?? undoing.problem,
  };
}
