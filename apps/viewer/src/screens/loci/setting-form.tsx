import { zodResolver } from '@hookform/resolvers/zod';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import type { KnownLocus } from '../../api/crosses.js';
import { SET_LOCUS_SETTING, type LocusSetting } from '../../api/own-loci.js';
import { useSave } from '../../api/use-save.js';
import { optionalId, optionalNumber, requiredId } from '../../components/field-rules.js';
import { ChoiceField, NumberField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';

const schema = z.object({
  locusId: requiredId('Choose the locus.'),
  lineId: optionalId,
  frequencies: z.array(optionalNumber),
  misScoring: optionalNumber,
});

interface SettingFormProps {
  loci: readonly KnownLocus[];
  lines: readonly { id: string; code: string; name: string }[];
  setting: LocusSetting | null;
  onClose: () => void;
}

/** Allele frequencies in per cent, one for each allele, and how many looks in a hundred are wrong. */
export function SettingForm({ loci, lines, setting, onClose }: SettingFormProps) {
  const start = loci.find((one) => one.id === setting?.locusId);
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      locusId: setting?.locusId ?? '',
      lineId: setting?.lineId ?? '',
      frequencies: (start?.alleles ?? []).map((allele) => {
        const set = setting?.frequencies.find((one) => one.alleleId === allele.id);
        return set === undefined ? '' : String(Number((set.frequency * 100).toFixed(6)));
      }),
      misScoring: setting?.misScoring == null ? '' : String(setting.misScoring * 100),
    },
  });
  const { save, saving, problem } = useSave(SET_LOCUS_SETTING);
  const locusId = useWatch({ control: form.control, name: 'locusId' });
  const alleles = loci.find((one) => one.id === locusId)?.alleles ?? [];
  return (
    <RecordForm
      form={form}
      submit="Save the setting"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async ({ lineId, frequencies, misScoring }) => {
        const given = alleles.map((allele, i) => ({
          alleleId: allele.id,
          frequency: (frequencies[i] ?? 0) / 100,
        }));
        const none = alleles.every((_, i) => (frequencies[i] ?? null) === null);
        const input = {
          locusId,
          lineId,
          frequencies: none ? null : given,
          misScoring: misScoring === null ? null : misScoring / 100,
        };
        if ((await save({ input })) !== null) onClose();
      }}
    >
      <WhereFields loci={loci} lines={lines} />
      <FrequencyFields alleles={alleles} locusId={locusId} />
      <NumberField
        name="misScoring"
        label="Appearances misread"
        unit="in 100"
        hint="Blank: 1 in 100. With 0, a single mistake is a contradiction."
      />
    </RecordForm>
  );
}

function FrequencyFields({
  alleles,
  locusId,
}: {
  alleles: { id: string; symbol: string; name: string }[];
  locusId: string;
}) {
  return (
    alleles.length > 0 && (
      <FieldRow>
        {alleles.map((allele, i) => (
          <NumberField
            key={`${locusId} ${allele.id}`}
            name={`frequencies.${i}`}
            label={`${allele.symbol}, ${allele.name}`}
            unit="%"
            hint="Percent of the founders’ alleles; together 100. Blank: equally common."
          />
        ))}
      </FieldRow>
    )
  );
}

function WhereFields({
  loci,
  lines,
}: {
  loci: readonly KnownLocus[];
  lines: readonly { id: string; code: string; name: string }[];
}) {
  return (
    <FieldRow>
      <ChoiceField
        name="locusId"
        label="Locus"
        required
        choices={[
          { value: '', label: 'choose' },
          ...loci.map((one) => ({ value: one.id, label: one.name })),
        ]}
      />
      <ChoiceField
        name="lineId"
        label="Line"
        choices={[
          { value: '', label: 'all other lines' },
          ...lines.map((line) => ({ value: line.id, label: `${line.code} ${line.name}` })),
        ]}
      />
    </FieldRow>
  );
}
