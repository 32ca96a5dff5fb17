import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useEffect, useState } from 'react';
import { useForm, useFormContext } from 'react-hook-form';
import { useClient } from 'urql';
import {
  LINE_PURPOSE,
  SAY_PURPOSE,
  type PurposeLine,
  type PurposeTrait,
  type PurposeVersion,
} from '../../api/line-purpose.js';
import { useSave } from '../../api/use-save.js';
import { ConflictNotice } from '../../components/conflict-notice.js';
import { LongTextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { CompareFish } from './compare-fish.js';
import { conflictsBetween } from './purpose-conflicts.js';
import { purposeSchema, sentContent, valuesOf, type PurposeValues } from './purpose-values.js';
import { LookAimFields } from './look-aim-fields.js';
import { RoundFields, RuleFields } from './round-fields.js';
import { TraitAimFields } from './trait-aim-fields.js';
import type { Looks } from './use-look-choices.js';

interface PurposeFormProps {
  line: PurposeLine;
  traits: readonly PurposeTrait[];
  looks: Looks;
}

/** Says what a line is for. What was typed stays until it is saved, whatever others save meanwhile. */
export function PurposeForm({ line, traits, looks }: PurposeFormProps) {
  const saying = useSaying(line);
  const { form, opened, changed, submit } = saying;
  return (
    <RecordForm
      form={form}
      submit={
        opened.version === 0 ? 'Save what it is for' : `Save as version ${opened.version + 1}`
      }
      saving={saying.saving}
      problem={saying.problem}
      onSubmit={submit(opened.version)}
    >
      <TraitAimFields traits={traits} />
      <LookAimFields looks={looks.choices} />
      <Comparing line={line} traits={traits} looks={looks} />
      <RoundFields />
      <RuleFields />
      <LongTextField name="note" label="Why it changes" hint="Kept with the version." />
      {changed !== null && (
        <ConflictNotice
          conflicts={conflictsBetween(form.getValues(), changed.content, traits, looks.names)}
          onKeepMine={() => void form.handleSubmit(submit(changed.version))()}
          onTakeSaved={() => saying.open(changed)}
        />
      )}
    </RecordForm>
  );
}

function useSaying(line: PurposeLine) {
  const client = useClient();
  const [opened, setOpened] = useState(line.purpose);
  const [newer, setNewer] = useState<PurposeVersion | null>(null);
  const form = useForm({
    resolver: zodResolver(purposeSchema),
    defaultValues: valuesOf(opened.content),
  });
  const { save, saving, problem, clear } = useSave(SAY_PURPOSE);
  const open = (version: PurposeVersion) => {
    setOpened(version);
    setNewer(null);
    clear();
    form.reset(valuesOf(version.content));
  };
  const { isDirty } = form.formState;
  useEffect(() => {
    // A version that came from elsewhere shows by itself as long as nothing is typed.
    if (line.purpose.version > opened.version && !isDirty && !saving) open(line.purpose);
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [line.purpose.version]);
  const stale = problem?.code === 'CONFLICT_REVISION';
  return {
    ...{ form, opened, open, saving },
    changed: stale ? newer : null,
    problem: stale && newer !== null ? null : problem,
    submit: (expectedVersion: number) => async (values: Parameters<typeof sentContent>[0]) => {
      const { note } = values;
      const said = await save({
        input: { lineId: line.id, expectedVersion, content: sentContent(values), note },
      });
      if (said !== null) return open(said.sayWhatLineIsFor);
      const { data } = await client
        .query(LINE_PURPOSE, { id: line.id }, { requestPolicy: 'network-only' })
        .toPromise();
      setNewer(data?.line.purpose ?? null);
    },
  };
}

/** The other way to state points: two fish at a time. */
function Comparing({ line, traits, looks }: PurposeFormProps) {
  const { getValues, setValue } = useFormContext<PurposeValues>();
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  return (
    <div>
      <p className="lw-quiet lw-words">
        Not sure how many points? Compare fish of the line two at a time, and the points are worked
        out from your answers.
      </p>
      <Button type="button" onClick={() => setOpen(true)}>
        Compare two fish
      </Button>
      <Sheet title="Which would you rather breed from?" opened={open} onClose={close} size={760}>
        <CompareFish
          lineId={line.id}
          wishes={getValues()}
          traits={traits}
          looks={looks}
          onPoints={(points) => {
            points.traits.forEach((worth, k) =>
              setValue(`traits.${k}.worth`, worth, { shouldDirty: true, shouldValidate: true }),
            );
            points.looks.forEach((worth, k) =>
              setValue(`looks.${k}.worth`, worth, { shouldDirty: true, shouldValidate: true }),
            );
            close();
          }}
        />
      </Sheet>
    </div>
  );
}
