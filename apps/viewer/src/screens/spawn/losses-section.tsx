import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { LOCUS_CHOICES } from '../../api/heredity.js';
import { RECORD_SPAWN_LOSS, SPAWN_FISH, type SpawnFacts } from '../../api/spawns.js';
import { useRead, type Read } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
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
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty } from '../../components/states.js';
import { tooMany } from '../../wording/brood-left.js';
import { plural, today } from '../../wording/figures.js';
import { lossWord } from '../../wording/words.js';
import { CullCaution, PlacingCaution } from '../fish/decision-cautions.js';
import { useEntryWithdrawal, type EntryWithdrawal } from './use-entry-withdrawal.js';
import type { Column } from '../../components/data-table.js';
import type { LocusChoice } from '../../api/heredity.js';

/** Fry that left without a record of their own: died, culled, placed, as counts with reasons. */
export function LossesSection({ spawn }: { spawn: SpawnFacts }) {
  const [open, setOpen] = useState(false);
  const withdrawal = useEntryWithdrawal(spawn.id);
  const losses = [...spawn.losses].sort((a, b) => a.on.localeCompare(b.on));
  const total = losses.reduce((sum, loss) => sum + loss.number, 0);
  return (
    <Section
      title="Losses and culls"
      aside={total > 0 ? `${total} in all` : undefined}
      actions={
        <Button size="xs" onClick={() => setOpen(true)}>
          Record losses
        </Button>
      }
    >
      {losses.length === 0 ? (
        <Empty>
          None recorded. Record fry that died, were culled or placed before they had a jar of their
          own.
        </Empty>
      ) : (
        <DataTable
          caption="Losses and culls"
          rows={losses}
          rowKey={(loss) => loss.id}
          columns={lossColumns(withdrawal)}
        />
      )}
      <Sheet
        title={`Record losses of spawn ${spawn.tag}`}
        opened={open}
        onClose={() => setOpen(false)}
      >
        <LossForm spawn={spawn} onClose={() => setOpen(false)} />
      </Sheet>
      {withdrawal.sheet}
    </Section>
  );
}

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

function lossColumns(withdrawal: EntryWithdrawal): readonly Column<SpawnFacts['losses'][number]>[] {
  return [
    { key: 'on', title: 'Date', unbroken: true, cell: (loss) => loss.on },
    { key: 'number', title: 'Number', number: true, cell: (loss) => loss.number },
    {
      key: 'why',
      title: 'How and why',
      cell: (loss) =>
        `${lossWord[loss.kind]}: ${loss.reason}${loss.heritable ? ' (thought heritable)' : ''}`,
    },
    {
      key: 'do',
      title: <span className="lw-heard">Actions</span>,
      cell: (loss) => withdrawal.button(loss.id, `loss of ${plural(loss.number, 'fish', 'fish')}`),
    },
  ];
}

function LossForm({ spawn, onClose }: { spawn: SpawnFacts; onClose: () => void }) {
  const spawnId = spawn.id;
  const fish = useRead(SPAWN_FISH, { id: spawnId }).data?.spawn.fish ?? [];
  const [warned, setWarned] = useState<string | null>(null);
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      kind: 'CULLED' as const,
      number: '',
      on: today(),
      reason: '',
      heritable: false,
      locusId: '',
      phenotype: '',
      note: '',
    },
  });
  const loci = useRead(LOCUS_CHOICES, {});
  const [kind, heritable, locusId] = useWatch({
    control: form.control,
    name: ['kind', 'heritable', 'locusId'],
  });
  const visible = loci.data?.loci.find((one) => one.id === locusId)?.visible ?? [];
  const { save, saving, problem } = useSave(RECORD_SPAWN_LOSS);
  return (
    <RecordForm
      form={form}
      submit={warned === null ? 'Save losses' : 'Save anyway'}
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (values) => {
        const { counts, losses } = spawn;
        const excess = tooMany({ counts, losses, fish }, values.number);
        if (excess !== null && excess !== warned) return setWarned(excess);
        if ((await save({ input: { spawnId, ...values } })) !== null) onClose();
        return undefined;
      }}
    >
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
      <TextField name="reason" label="Reason" required />
      <TickField name="heritable" label="Thought to be heritable" />
      {heritable && <LocusField loci={loci} />}
      <SeenField heritable={heritable} visible={visible} />
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

function LocusField({ loci }: { loci: Read<{ loci: LocusChoice[] }> }) {
  return (
    <ChoiceField
      name="locusId"
      label="Locus thought to cause it"
      choices={[
        { value: '', label: 'none in particular' },
        ...(loci.data?.loci ?? []).map((locus) => ({ value: locus.id, label: locus.name })),
      ]}
    />
  );
}

function SeenField({
  heritable,
  visible,
}: {
  heritable: boolean;
  visible: { id: string; name: string }[];
}) {
  return (
    heritable &&
    visible.length > 0 && (
      <ChoiceField
        name="phenotype"
        label="What was seen at it"
        hint="If given, they count as evidence about the parents once the brood is counted by class."
        choices={[
          { value: '', label: 'not given' },
          ...visible.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
    )
  );
}
