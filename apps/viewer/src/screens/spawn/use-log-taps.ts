import { useState } from 'react';
import { RECORD_CARE, UNDO_CARE, type PlannedStep } from '../../api/care.js';
import { newId } from '../../api/new-id.js';
import { useSave } from '../../api/use-save.js';
import { zoneHere } from '../../clock/clock.js';
import { useUnsaved } from '../../components/unsaved.js';
import { instantOf, whenText } from '../../wording/care-words.js';
import type { Recorded } from '../today/just-done.js';
import { tapTitle } from './tap-words.js';

/** Records steps of a spawn at a tap, with the time and note that were typed before it. */
export function useLogTaps(spawnId: string) {
  const [time, setTime] = useState('');
  const [note, setNote] = useState('');
  const [last, setLast] = useState<Recorded | null>(null);
  useUnsaved(time !== '' || note.trim() !== '');
  const recording = useSave(RECORD_CARE);
  const undoing = useSave(UNDO_CARE);
  const record = async ({ step }: PlannedStep) => {
    const input = {
      ...{ id: newId(), spawnId, step: step.id, at: instantOf(time), zone: zoneHere() },
      note: note.trim() === '' ? null : note.trim(),
    };
    const saved = await recording.save({ input });
    if (saved === null) return;
    const what = `Recorded: ${tapTitle(step)}, ${whenText(input.at)}.`;
    setLast({ recordId: saved.recordCare, spawnId, what });
    setNote('');
    setTime('');
  };
  const undo = async ({ recordId }: Recorded) => {
    const saved = await undoing.save({ input: { spawnId, recordId, zone: zoneHere() } });
    if (saved !== null) setLast(null);
  };
  return {
    ...{ time, setTime, note, setNote, last, record, undo },
    saving: recording.saving,
    undoing: undoing.saving,
    problem: recording.problem ?? undoing.problem,
  };
}

export type LogTaps = ReturnType<typeof useLogTaps>;
