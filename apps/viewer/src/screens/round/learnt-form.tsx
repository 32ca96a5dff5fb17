import { useEffect, useState } from 'react';
import { useForm } from 'react-hook-form';
import { SAY_LEARNT, type Round } from '../../api/round-course.js';
import { useSave } from '../../api/use-save.js';
import { LongTextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import styles from './round.module.css';

/** What was learnt from a round, kept with it. */
export function LearntForm({ round }: { round: Round }) {
  const [revision, setRevision] = useState(round.revision);
  const form = useForm({ defaultValues: { learnt: round.learnt ?? '' } });
  const { save, saving, problem } = useSave(SAY_LEARNT);
  const { isDirty } = form.formState;
  useEffect(() => {
    // As long as nothing is typed, the form follows what is on record.
    if (isDirty || saving) return;
    setRevision(round.revision);
    form.reset({ learnt: round.learnt ?? '' });
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [round.revision]);
  return (
    <>
      <p className={styles['on-paper']}>{round.learnt ?? 'Nothing noted yet.'}</p>
      <div className={styles['on-screen']}>
        <RecordForm
          form={form}
          submit="Save what was learnt"
          saving={saving}
          problem={problem}
          onSubmit={async ({ learnt }) => {
            const said = await save({
              input: { id: round.id, revision, learnt: learnt.trim() === '' ? null : learnt },
            });
            if (said === null) return;
            setRevision(said.sayWhatWasLearnt.revision);
            form.reset({ learnt: said.sayWhatWasLearnt.learnt ?? '' });
          }}
        >
          <LongTextField
            name="learnt"
            label="What was learnt"
            hint="What came otherwise than expected, why you think so, and what you would do differently."
          />
        </RecordForm>
      </div>
    </>
  );
}
