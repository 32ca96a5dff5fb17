import { CARE_REASONS, type CareTask } from '../../api/care.js';
import { useRead } from '../../api/use-read.js';
import { CareWhy } from '../../components/care-why.js';
import { Shown } from '../../components/states.js';

/** Why a task is due when it is, read once somebody asks. */
export function TaskWhy({ task }: { task: CareTask }) {
  const read = useRead(CARE_REASONS, { id: task.spawn.id });
  return (
    <div className="lw-reason">
      <Shown read={read} what="the reasons">
        {({ spawn }) =>
          spawn.care.steps
            .filter(({ step }) => step.id === task.step.id)
            .map(({ step, reasons }) => (
              <CareWhy key={step.id} step={step} reasons={reasons} from={task.from} to={task.to} />
            ))
        }
      </Shown>
    </div>
  );
}
