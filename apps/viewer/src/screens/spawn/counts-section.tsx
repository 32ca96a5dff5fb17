import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { RECORD_SPAWN_COUNT, type SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { optionalText, requiredDate, wholeNumber } from '../../components/field-rules.js';
import { ChoiceField, DateField, NumberField, TextField } from '../../components/fields.js';
import { Caution } from '../../components/notice.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty } from '../../components/states.js';
import { SurvivalSteps } from '../../drawings/index.js';
import { today } from '../../wording/figures.js';
import { optionsOf, stagesInOrder, stageWord } from '../../wording/words.js';
import { stagesThatRose } from './stages-that-rose.js';
import { useLogWithdrawal, type LogWithdrawal } from './use-log-withdrawal.js';
import type { Column } from '../../components/data-table.js';

type Count = SpawnFacts['counts'][number];

/** Counts of a spawn by stage, drawn and listed. */
export function CountsSection({ spawn }: { spawn: SpawnFacts }) {
  const [open, setOpen] = useState(false);
  const withdrawal = useLogWithdrawal(spawn.id);
  const close = () => setOpen(false);
  return (
    <Section
      title="Counts by stage"
      actions={
        <Button size="xs" onClick={() => setOpen(true)}>
          Record count
        </Button>
      }
    >
      {spawn.counts.length === 0 ? (
        <Empty>
          No count yet. An estimate of the eggs and a count of the fry at two weeks already show
          where losses fall.
        </Empty>
      ) : (
        <Counted spawn={spawn} withdrawal={withdrawal} />
      )}
      <Sheet title={`Record a count of spawn ${spawn.tag}`} opened={open} onClose={close}>
        <CountForm spawnId={spawn.id} onClose={close} />
      </Sheet>
      {withdrawal.sheet}
    </Section>
  );
}

/** The latest count of each stage, in the order of the stages. */
const latestByStage = (counts: readonly Count[]) =>
  stagesInOrder.map((stage) => {
    const latest = counts.filter((count) => count.stage === stage).at(-1);
    return {
      id: stage,
      label: stageWord[stage],
      count: latest?.number ?? null,
      on: latest?.countedOn ?? null,
      note: latest?.note ?? null,
    };
  });

interface CountedProps {
  spawn: SpawnFacts;
  withdrawal: LogWithdrawal;
}

function Counted({ spawn, withdrawal }: CountedProps) {
  const counts = [...spawn.counts].sort((a, b) => a.countedOn.localeCompare(b.countedOn));
  const stages = latestByStage(counts);
  return (
    <>
      {stagesThatRose(stages).map((rise) => (
        <Caution key={rise}>Counts do not add up. {rise}</Caution>
      ))}
      <SurvivalSteps stages={stages} title={`Counts of spawn ${spawn.tag} by stage`} />
      <DataTable
        caption="Counts"
        rows={counts}
        rowKey={(count) => count.id}
        columns={countColumns(withdrawal)}
      />
    </>
  );
}

const schema = z.object({
  stage: z.enum(['EGGS', 'HATCHED', 'FREE_SWIMMING', 'TWO_WEEKS', 'JARRED', 'SORTED']),
  number: wholeNumber(0, 5000),
  countedOn: requiredDate,
  note: optionalText,
});

function countColumns(withdrawal: LogWithdrawal): readonly Column<Count>[] {
  return [
    { key: 'stage', title: 'Stage', cell: (count) => stageWord[count.stage] },
    { key: 'number', title: 'Number', number: true, cell: (count) => count.number },
    { key: 'on', title: 'Date', number: true, cell: (count) => count.countedOn },
    { key: 'note', title: 'Note', wideOnly: true, cell: (count) => count.note ?? '' },
    {
      key: 'do',
      changes: true,
      title: <span className="lw-heard">Actions</span>,
      cell: (count) => withdrawal.button(count.id, `count at ${stageWord[count.stage]}`),
    },
  ];
}

export function CountForm({ spawnId, onClose }: { spawnId: string; onClose: () => void }) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { stage: 'EGGS' as const, number: '', countedOn: today(), note: '' },
  });
  const { save, saving, problem } = useSave(RECORD_SPAWN_COUNT);
  return (
    <RecordForm
      form={form}
      submit="Save count"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (values) => {
        if ((await save({ input: { spawnId, ...values } })) !== null) onClose();
      }}
    >
      <FieldRow>
        <ChoiceField name="stage" label="Stage" choices={optionsOf(stageWord)} required />
        <NumberField name="number" label="Number" required />
        <DateField name="countedOn" label="Counted on" required />
      </FieldRow>
      <TextField name="note" label="Note" hint="Such as: estimate, 20 more or less." />
    </RecordForm>
  );
}
