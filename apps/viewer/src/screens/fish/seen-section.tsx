import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import {
  PHENOTYPES_SEEN,
  RECORD_PHENOTYPE,
  WITHDRAW_PHENOTYPE,
  type SeenPhenotype,
} from '../../api/carriers.js';
import type { FishFacts } from '../../api/fish.js';
import { LOCUS_CHOICES, type LocusChoice } from '../../api/heredity.js';
import { useRead, type Read } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { optionalText, requiredDate, requiredId } from '../../components/field-rules.js';
import { ChoiceField, DateField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { ageText, today } from '../../wording/figures.js';
import { LookDrawn, SeenDrawn } from './seen-drawn.js';

/** What was seen on the fish at each locus: the evidence that carrier probabilities start from. */
export function SeenSection({ fish }: { fish: FishFacts }) {
  const read = useRead(PHENOTYPES_SEEN, { id: fish.id });
  const loci = useRead(LOCUS_CHOICES, {});
  const [recording, setRecording] = useState(false);
  const [withdrawing, setWithdrawing] = useState<SeenPhenotype | null>(null);
  const nameOf = (id: string) => loci.data?.loci.find((one) => one.id === id)?.name ?? id;
  return (
    <Section
      title="Appearance"
      actions={
        <Button size="xs" onClick={() => setRecording(true)}>
          Record appearance
        </Button>
      }
    >
      <SeenList sex={fish.sex} read={read} nameOf={nameOf} setWithdrawing={setWithdrawing} />
      <Sheet
        title={`Appearance of ${fish.tag}`}
        opened={recording}
        onClose={() => setRecording(false)}
      >
        <Shown read={loci} what="the loci">
          {(data) => <SeenForm fish={fish} loci={data.loci} onClose={() => setRecording(false)} />}
        </Shown>
      </Sheet>
      {withdrawing !== null && (
        <WithdrawSeenSheet
          seen={withdrawing}
          locus={nameOf(withdrawing.locusId)}
          onClose={() => setWithdrawing(null)}
        />
      )}
    </Section>
  );
}

interface SeenTableProps {
  rows: readonly SeenPhenotype[];
  nameOf: (locusId: string) => string;
  onWithdraw: (seen: SeenPhenotype) => void;
}

function SeenList({
  sex,
  read,
  nameOf,
  setWithdrawing,
}: {
  sex: FishFacts['sex'];
  read: Read<{ fish: { id: string; phenotypesSeen: SeenPhenotype[] } }>;
  nameOf: (id: string) => string;
  setWithdrawing: Dispatch<SetStateAction<SeenPhenotype | null>>;
}) {
  return (
    <Shown read={read} what="what was seen">
      {({ fish: { phenotypesSeen } }) =>
        phenotypesSeen.length === 0 ? (
          <Empty>
            Nothing recorded. What a fish shows also tells about its parents and its young.
          </Empty>
        ) : (
          <>
            <SeenDrawn sex={sex} seen={phenotypesSeen} nameOf={nameOf} />
            <SeenTable rows={phenotypesSeen} nameOf={nameOf} onWithdraw={setWithdrawing} />
          </>
        )
      }
    </Shown>
  );
}

const seenColumns = (nameOf: SeenTableProps['nameOf']): readonly Column<SeenPhenotype>[] => [
  { key: 'locus', title: 'Locus', cell: (each) => nameOf(each.locusId) },
  {
    key: 'seen',
    title: 'Shows',
    cell: (each) => (
      <>
        <strong>{each.name}</strong>
        {each.setAside !== null && <span className="lw-small">Not counted. {each.setAside}</span>}
        {each.note !== null && <span className="lw-small">{each.note}</span>}
      </>
    ),
  },
  {
    key: 'on',
    title: 'Seen on',
    unbroken: true,
    cell: (each) => `${each.seenOn}${each.ageDays === null ? '' : ` (${ageText(each.ageDays)})`}`,
  },
];

function SeenTable({ rows, nameOf, onWithdraw }: SeenTableProps) {
  return (
    <DataTable
      caption="Appearance"
      rows={rows}
      rowKey={(each) => each.id}
      columns={[
        ...seenColumns(nameOf),
        {
          key: 'do',
          changes: true,
          title: <span className="lw-heard">Actions</span>,
          cell: (each) => (
            <span className="lw-row-buttons">
              <button
                type="button"
                aria-label={`Withdraw ${each.name} seen on ${each.seenOn}`}
                onClick={() => onWithdraw(each)}
              >
                Withdraw
              </button>
            </span>
          ),
        },
      ]}
    />
  );
}

const schema = z.object({
  locusId: requiredId('Choose the locus.'),
  phenotype: requiredId('Choose what you see.'),
  seenOn: requiredDate,
  note: optionalText,
});

interface SeenFormProps {
  fish: FishFacts;
  loci: readonly LocusChoice[];
  onClose: () => void;
}

function SeenForm({ fish, loci, onClose }: SeenFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { locusId: '', phenotype: '', seenOn: today(), note: '' },
  });
  const locusId = useWatch({ control: form.control, name: 'locusId' });
  const locus = loci.find((each) => each.id === locusId);
  const { save, saving, problem } = useSave(RECORD_PHENOTYPE);
  return (
    <RecordForm
      form={form}
      submit="Save appearance"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (values) => {
        if ((await save({ input: { fishId: fish.id, ...values } })) !== null) onClose();
      }}
    >
      <SeenFields loci={loci} locus={locus} />
      <TextField name="note" label="Note" />
    </RecordForm>
  );
}

interface SeenFieldsProps {
  loci: readonly LocusChoice[];
  locus: LocusChoice | undefined;
}

function SeenFields({ loci, locus }: SeenFieldsProps) {
  const visible = loci.filter((each) => each.visible.length > 0 && !each.isWithdrawn);
  return (
    <>
      <ChoiceField
        name="locusId"
        label="Locus"
        required
        choices={[
          { value: '', label: 'choose' },
          ...visible.map((each) => ({ value: each.id, label: each.name })),
        ]}
      />
      <FieldRow>
        <ChoiceField
          name="phenotype"
          label="What you see"
          required
          choices={[
            { value: '', label: locus === undefined ? 'choose the locus first' : 'choose' },
            ...(locus?.visible ?? []).map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
        <DateField name="seenOn" label="Seen on" required />
      </FieldRow>
      <LookDrawn locus={locus} />
    </>
  );
}

interface WithdrawSeenSheetProps {
  seen: SeenPhenotype;
  locus: string;
  onClose: () => void;
}

function WithdrawSeenSheet({ seen, locus, onClose }: WithdrawSeenSheetProps) {
  return (
    <WithdrawRecord
      mutation={WITHDRAW_PHENOTYPE}
      record={seen}
      title={`Withdraw ${seen.name}`}
      what={`the appearance at ${locus}`}
      onClose={onClose}
    />
  );
}
