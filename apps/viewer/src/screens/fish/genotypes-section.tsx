import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import {
  FISH_EVIDENCE,
  RECORD_GENOTYPE,
  WITHDRAW_GENOTYPE,
  type FishEvidence,
  type FishFacts,
} from '../../api/fish.js';
import { LOCUS_CHOICES, type LocusChoice } from '../../api/heredity.js';
import { useRead, type Read } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { optionalText, requiredId, requiredText } from '../../components/field-rules.js';
import { ChoiceField, TextField } from '../../components/fields.js';
import { Caution } from '../../components/notice.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { basisWord, optionsOf } from '../../wording/words.js';
import type { Column } from '../../components/data-table.js';

type Genotype = FishEvidence['genotypes'][number];

/** Genotypes that were recorded of a fish, and recording one. */
export function GenotypesSection({ fish }: { fish: FishFacts }) {
  const read = useRead(FISH_EVIDENCE, { id: fish.id });
  const loci = useRead(LOCUS_CHOICES, {});
  const [recording, setRecording] = useState(false);
  const [withdrawing, setWithdrawing] = useState<Genotype | null>(null);
  const nameOf = (id: string) => loci.data?.loci.find((locus) => locus.id === id)?.name ?? id;
  return (
    <Section
      title="Genotypes"
      actions={
        <Button size="xs" onClick={() => setRecording(true)}>
          Record genotype
        </Button>
      }
    >
      <Shown read={read} what="the genotypes">
        {({ fish: { genotypes } }) => (
          <GenotypeTable
            genotypes={genotypes.filter((each) => each.withdrawn === null)}
            columns={genotypeColumns(nameOf, setWithdrawing)}
          />
        )}
      </Shown>
      <RecordGenotypeSheet {...{ fish, recording, setRecording, loci }} />
      {withdrawing !== null && (
        <WithdrawGenotypeSheet
          genotype={withdrawing}
          locus={nameOf(withdrawing.locusId)}
          onClose={() => setWithdrawing(null)}
        />
      )}
    </Section>
  );
}

interface GenotypeTableProps {
  genotypes: readonly Genotype[];
  columns: readonly Column<Genotype>[];
}

function GenotypeTable({ genotypes, columns }: GenotypeTableProps) {
  if (genotypes.length === 0)
    return (
      <Empty>
        None recorded. What you record here lets expected classes be worked out for its spawns.
      </Empty>
    );
  return (
    <DataTable caption="Genotypes" rows={genotypes} rowKey={(each) => each.id} columns={columns} />
  );
}

const schema = z.object({
  locusId: requiredId('Choose the locus.'),
  genotype: requiredText('Choose or type the genotype, such as Bl/bl.'),
  basis: z.enum(['ASSUMED', 'PARENTS', 'PROGENY', 'TEST_MATING', 'LABORATORY']),
  note: optionalText,
});

interface RecordGenotypeFormProps {
  fishId: string;
  loci: readonly LocusChoice[];
  onClose: () => void;
}

function RecordGenotypeSheet({
  fish,
  recording,
  setRecording,
  loci,
}: {
  fish: FishFacts;
  recording: boolean;
  setRecording: Dispatch<SetStateAction<boolean>>;
  loci: Read<{ loci: LocusChoice[] }>;
}) {
  return (
    <Sheet
      title={`Record a genotype of ${fish.tag}`}
      opened={recording}
      onClose={() => setRecording(false)}
    >
      <Shown read={loci} what="the loci">
        {(data) => (
          <RecordGenotypeForm
            fishId={fish.id}
            loci={data.loci}
            onClose={() => setRecording(false)}
          />
        )}
      </Shown>
    </Sheet>
  );
}

function genotypeColumns(
  nameOf: (id: string) => string,
  setWithdrawing: Dispatch<SetStateAction<FishEvidence['genotypes'][number] | null>>,
): readonly Column<FishEvidence['genotypes'][number]>[] {
  return [
    { key: 'locus', title: 'Locus', cell: (each) => nameOf(each.locusId) },
    {
      key: 'genotype',
      title: 'Genotype',
      cell: (each) => <strong>{each.genotype}</strong>,
    },
    {
      key: 'basis',
      title: 'Basis',
      cell: (each) => basisWord[each.basis] + (each.note === null ? '' : `: ${each.note}`),
    },
    {
      key: 'do',
      changes: true,
      title: <span className="lw-heard">Actions</span>,
      cell: (each) => (
        <span className="lw-row-buttons">
          <button
            type="button"
            aria-label={`Withdraw genotype at ${nameOf(each.locusId)}`}
            onClick={() => setWithdrawing(each)}
          >
            Withdraw
          </button>
        </span>
      ),
    },
  ];
}

function RecordGenotypeForm({ fishId, loci, onClose }: RecordGenotypeFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { locusId: '', genotype: '', basis: 'ASSUMED' as const, note: '' },
  });
  const locusId = useWatch({ control: form.control, name: 'locusId' });
  const locus = loci.find((each) => each.id === locusId);
  const { save, saving, problem } = useSave(RECORD_GENOTYPE);
  return (
    <RecordForm
      form={form}
      submit="Save genotype"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (values) => {
        if ((await save({ input: { fishId, ...values } })) !== null) onClose();
      }}
    >
      <LocusField loci={loci} />
      <FieldRow>
        <GenotypeField locus={locus} />
        <ChoiceField name="basis" label="Basis" choices={optionsOf(basisWord)} required />
      </FieldRow>
      <TextField name="note" label="Note" hint="Such as the count that shows it." />
      {locus !== undefined && !locus.computable && (
        <Caution>It is recorded but not used in crosses. {locus.whyNotComputable ?? ''}</Caution>
      )}
    </RecordForm>
  );
}

function LocusField({ loci }: { loci: readonly LocusChoice[] }) {
  return (
    <ChoiceField
      name="locusId"
      label="Locus"
      required
      choices={[
        { value: '', label: 'choose' },
        ...loci.map((each) => ({ value: each.id, label: each.name })),
      ]}
    />
  );
}

interface WithdrawGenotypeSheetProps {
  genotype: Genotype;
  locus: string;
  onClose: () => void;
}

function GenotypeField({ locus }: { locus: LocusChoice | undefined }) {
  return locus !== undefined && locus.phenotypes.length > 0 ? (
    <ChoiceField
      name="genotype"
      label="Genotype"
      required
      choices={[
        { value: '', label: 'choose' },
        ...locus.phenotypes.map(({ genotype, phenotype }) => ({
          value: genotype,
          label: `${genotype} · ${phenotype}`,
        })),
      ]}
    />
  ) : (
    <TextField name="genotype" label="Genotype" required hint="Two alleles with a slash." />
  );
}

function WithdrawGenotypeSheet({ genotype, locus, onClose }: WithdrawGenotypeSheetProps) {
  return (
    <WithdrawRecord
      mutation={WITHDRAW_GENOTYPE}
      record={genotype}
      title={`Withdraw ${genotype.genotype}`}
      what={`the genotype at ${locus}`}
      onClose={onClose}
    />
  );
}
