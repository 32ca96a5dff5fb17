import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { LOCUS_CHOICES } from '../../api/heredity.js';
import { RECORD_SPAWN_LOSS, SPAWN_FISH, type SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import {
  optionalId,
  optionalText,
  requiredDate,
  requiredText,
  wholeNumber,
} from '../../components/field-rules.js';
import {
  ChoiceField,
  DateField,
  NumberField,
  TextField,
  TickField,
} from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { tooMany } from '../../wording/brood-left.js';
import { today } from '../../wording/figures.js';
import { CullCaution, PlacingCaution } from '../fish/decision-cautions.js';

const schema = z.object({
  kind: z.enum(['DIED', 'CULLED', 'PLACED']),
  number: wholeNumber(1, 5000),
  on: requiredDate,
  reason: requiredText('Give the reason, such as: bent spine, buyer, unknown.'),
  heritable: z.boolean(),
  locusId: optionalId,
  phenotype: optionalId,
  note: optionalText,
});

/** Saves losses; more than can be left are told once, then taken. */
function useLosses(spawn: SpawnFacts, onSaved: () => void) {
  const fish = useRead(SPAWN_FISH, { id: spawn.id }).data?.spawn.fish ?? [];
  const [warned, setWarned] = useState<string | null>(null);
  const { save, saving, problem } = useSave(RECORD_SPAWN_LOSS);
  const keep = async (values: z.output<typeof schema>) => {
    const { id: spawnId, counts, losses } = spawn;
    const excess = tooMany({ counts, losses, fish }, values.number);
    if (excess !== null && excess !== warned) setWarned(excess);
    else if ((await save({ input: { spawnId, ...values } })) !== null) onSaved();
  };
  return { keep, warned, saving, problem };
}

interface LossFormProps {
  spawn: SpawnFacts;
  onClose: () => void;
}

export function LossForm({ spawn, onClose }: LossFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ kind: 'CULLED' as const, number: '', on: today(), reason: '' },
      ...{ heritable: false, locusId: '', phenotype: '', note: '' },
    },
  });
  const kind: string = useWatch({ control: form.control, name: 'kind' });
  const { keep, warned, saving, problem } = useLosses(spawn, onClose);
  return (
    <RecordForm
      form={form}
      submit={warned === null ? 'Save losses' : 'Save anyway'}
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={keep}
    >
      <WhatHappened />
      <TextField name="reason" label="Reason" required />
      <HeritableFields />
      <TextField name="note" label="Note" />
      {kind === 'CULLED' && <CullCaution />}
      {kind === 'PLACED' && <PlacingCaution />}
      {warned !== null && (
        <div className="lw-notice lw-notice-problem" role="alert">
          <p>{warned}</p>
        </div>
      )}
    </RecordForm>
  );
}

function WhatHappened() {
  return (
    <FieldRow>
      <ChoiceField
        name="kind"
        label="What happened"
        required
        choices={[
          { value: 'CULLED', label: 'culled' },
          { value: 'DIED', label: 'died' },
          { value: 'PLACED', label: 'placed' },
        ]}
      />
      <NumberField name="number" label="Number" required />
      <DateField name="on" label="Date" required />
    </FieldRow>
  );
}

/** Whether the cause is thought to be heritable, and if so where and what was seen. */
function HeritableFields() {
  const loci = useRead(LOCUS_CHOICES, {}).data?.loci ?? [];
  const [heritable, locusId] = useWatch({ name: ['heritable', 'locusId'] }) as [boolean, string];
  const visible = loci.find((one) => one.id === locusId)?.visible ?? [];
  return (
    <>
      <TickField name="heritable" label="Thought to be heritable" />
      {heritable && (
        <ChoiceField
          name="locusId"
          label="Locus thought to cause it"
          choices={[
            { value: '', label: 'none in particular' },
            ...loci.map((locus) => ({ value: locus.id, label: locus.name })),
          ]}
        />
      )}
      {heritable && visible.length > 0 && <SeenField visible={visible} />}
    </>
  );
}

function SeenField({ visible }: { visible: readonly { id: string; name: string }[] }) {
  return (
    <ChoiceField
      name="phenotype"
      label="What was seen at it"
      hint="If given, they count as evidence about the parents once the brood is counted by class."
      choices={[
        { value: '', label: 'not given' },
        ...visible.map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  );
}
