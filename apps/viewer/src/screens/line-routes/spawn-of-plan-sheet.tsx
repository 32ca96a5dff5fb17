import { useForm } from 'react-hook-form';
import { type LinePlan, type PlanStep, SAY_SPAWN_OF_PLAN } from '../../api/line-plan.js';
import { useSave } from '../../api/use-save.js';
import { ChoiceField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { broodName } from '../../wording/plan-words.js';

const BY_PARENTS = 'by-parents';
const NONE = 'none';
const MOST_LOOKED_AT = 500;

interface SpawnOfPlanSheetProps {
  plan: LinePlan;
  step: PlanStep;
  onClose: () => void;
}

/** Says which spawn is a brood of the plan, where parents and day do not find it. */
export function SpawnOfPlanSheet({ plan, step, onClose }: SpawnOfPlanSheetProps) {
  const said = step.chosen ? (step.spawn?.id ?? NONE) : BY_PARENTS;
  const form = useForm({ defaultValues: { spawn: said } });
  const { save, saving, problem } = useSave(SAY_SPAWN_OF_PLAN);
  const name = broodName(step.brood, plan.steps);
  return (
    <Sheet title={`Which spawn is ${name}?`} opened onClose={onClose}>
      <RecordForm
        form={form}
        submit="Save"
        saving={saving}
        problem={problem}
        onCancel={onClose}
        onSubmit={async ({ spawn }) => {
          const byParents = spawn === BY_PARENTS;
          const spawnId = byParents || spawn === NONE ? null : spawn;
          const { id, revision } = plan;
          const input = { id, revision, brood: step.brood, spawnId, byParents };
          if ((await save({ input })) !== null) onClose();
        }}
      >
        <ChoiceField
          name="spawn"
          label="Spawn"
          choices={[
            { value: BY_PARENTS, label: 'Found by its parents and its day' },
            { value: NONE, label: 'None so far' },
            ...plan.spawns.map(({ id, tag, on }) => ({
              value: id,
              label: on === null ? tag : `${tag}, ${on}`,
            })),
          ]}
        />
        <p className="lw-quiet">
          Spawns since the plan began are listed: those of the line, and those of the fish that the
          plan names.{' '}
          {plan.spawnCount > MOST_LOOKED_AT &&
            `Of ${plan.spawnCount} the earliest ${MOST_LOOKED_AT} were looked at.`}
        </p>
      </RecordForm>
    </Sheet>
  );
}
