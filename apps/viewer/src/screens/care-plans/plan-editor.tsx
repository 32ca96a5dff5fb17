import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { SAVE_CARE_TEMPLATE, type CareStep, type CareTemplate } from '../../api/care.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { FieldRow } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { useUnsaved } from '../../components/unsaved.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { newId } from '../../api/new-id.js';
import { newStep, stepInput, withStep } from './edited-steps.js';
import { StepForm } from './step-form.js';
import { StepList } from './step-list.js';

interface PlanEditorProps {
  from: CareTemplate;
  /** True: a new plan for a line that has none; false: a new version of this one. */
  copy: boolean;
  onClose: () => void;
}

const noLine = 'Choose the line this plan is for.';

/** What is typed of a plan, whether that is saved, and its saving as a whole. */
function usePlan({ from, copy, onClose }: PlanEditorProps) {
  const [id] = useState(() => (copy ? newId() : from.id));
  const [first] = useState({
    name: copy ? `${from.name}, changed` : from.name,
    lineId: copy ? '' : (from.line?.id ?? ''),
    steps: from.steps as readonly CareStep[],
  });
  const [name, setName] = useState(first.name);
  const [lineId, setLineId] = useState(first.lineId);
  const [steps, setSteps] = useState(first.steps);
  const [missing, setMissing] = useState<string | null>(null);
  const { save, saving, problem } = useSave(SAVE_CARE_TEMPLATE);
  useUnsaved(name !== first.name || lineId !== first.lineId || steps !== first.steps);
  const saveAll = async () => {
    setMissing(lineId === '' ? noLine : null);
    if (lineId === '') return;
    const revision = copy ? null : from.revision;
    const input = { id, revision, lineId, name, steps: steps.map(stepInput) };
    if ((await save({ input })) !== null) onClose();
  };
  const fields = { name, setName, lineId, setLineId, missing };
  return { fields, steps, setSteps, saveAll, saving, problem };
}

/** A line's plan, changed step by step and saved as a whole. */
export function PlanEditor(props: PlanEditorProps) {
  const { fields, steps, setSteps, saveAll, saving, problem } = usePlan(props);
  const [open, setOpen] = useState<CareStep | null>(null);
  const put = (step: CareStep) => {
    setSteps((before) => withStep(before, step));
    setOpen(null);
  };
  return (
    <>
      <PlanFields {...fields} />
      <ProblemNotice problem={problem} />
      <div className="lw-form-buttons">
        <Button
          className="lw-primary"
          variant="filled"
          loading={saving}
          onClick={() => void saveAll()}
        >
          Save the plan
        </Button>
        <Button onClick={() => setOpen(newStep(steps))}>Add a step</Button>
        <Button onClick={props.onClose}>Cancel</Button>
      </div>
      <StepList
        steps={steps}
        actions={(step) => (
          <StepButtons step={step} setOpen={setOpen} setSteps={setSteps} steps={steps} />
        )}
      />
      <StepSheet open={open} setOpen={setOpen} steps={steps} put={put} />
    </>
  );
}

function StepSheet({
  open,
  setOpen,
  steps,
  put,
}: {
  open: CareStep | null;
  setOpen: Dispatch<SetStateAction<CareStep | null>>;
  steps: readonly CareStep[];
  put: (step: CareStep) => void;
}) {
  return (
    open !== null && (
      <Sheet
        title={open.title === '' ? 'New step' : open.title}
        opened
        onClose={() => setOpen(null)}
      >
        <StepForm step={open} steps={steps} onSave={put} onCancel={() => setOpen(null)} />
      </Sheet>
    )
  );
}

function StepButtons({
  step,
  setOpen,
  setSteps,
  steps,
}: {
  step: CareStep;
  setOpen: Dispatch<SetStateAction<CareStep | null>>;
  setSteps: Dispatch<SetStateAction<readonly CareStep[]>>;
  steps: readonly CareStep[];
}) {
  return (
    <div className="lw-row-buttons">
      <button type="button" aria-label={`Change ${step.title}`} onClick={() => setOpen(step)}>
        Change
      </button>
      <button
        type="button"
        aria-label={`Remove ${step.title}`}
        onClick={() => setSteps(steps.filter((each) => each !== step))}
      >
        Remove
      </button>
    </div>
  );
}

interface PlanFieldsProps {
  name: string;
  setName: (name: string) => void;
  lineId: string;
  setLineId: (lineId: string) => void;
  missing: string | null;
}

function PlanFields({ name, setName, lineId, setLineId, missing }: PlanFieldsProps) {
  const lines = useLineChoices();
  return (
    <FieldRow>
      <TextInput
        label="Name"
        required
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
      />
      <NativeSelect
        label="Line"
        required
        error={missing}
        value={lineId}
        onChange={(event) => setLineId(event.currentTarget.value)}
        data={[{ value: '', label: 'choose a line' }, ...lines]}
      />
    </FieldRow>
  );
}
