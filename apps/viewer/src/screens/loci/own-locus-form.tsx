import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useFieldArray, useForm, type UseFieldArrayReturn } from 'react-hook-form';
import { z } from 'zod';
import type { KnownLocus } from '../../api/crosses.js';
import { DEFINE_LOCUS, REVISE_LOCUS } from '../../api/own-loci.js';
import { useSave } from '../../api/use-save.js';
import { optionalText, optionalWholeNumber, requiredText } from '../../components/field-rules.js';
import { LongTextField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import styles from './own-locus-form.module.css';

const schema = z.object({
  locusId: requiredText('Give a short name, such as mottle.'),
  name: requiredText('Give the locus a name.'),
  alleles: z.array(
    z.object({
      symbol: requiredText('Give a symbol, such as Mo.'),
      name: requiredText('Say what it does.'),
    }),
  ),
  looks: z.array(
    z.object({
      genotype: requiredText('Give the genotype, such as Mo/- or mo/mo.'),
      phenotype: requiredText('Say what the fish shows.'),
      share: optionalText,
      survival: optionalText,
    }),
  ),
  scorableFromDays: optionalWholeNumber,
  note: optionalText,
});

/** What the fields hold: text, as it is typed. */
type Typed = z.input<typeof schema>;

const blankLook = { genotype: '', phenotype: '', share: '', survival: '' };

function startOf(locus: KnownLocus | null) {
  if (locus === null) {
    return {
      locusId: '',
      name: '',
      alleles: [
        { symbol: '', name: '' },
        { symbol: '', name: '' },
      ],
      looks: [blankLook, blankLook],
      scorableFromDays: '',
      note: '',
    };
  }
  return {
    locusId: locus.id,
    name: locus.name,
    alleles: locus.alleles.map(({ symbol, name }) => ({ symbol, name })),
    looks: locus.phenotypes.map(({ genotype, phenotype }) => ({
      ...blankLook,
      genotype,
      phenotype,
    })),
    scorableFromDays: locus.scorableFromDays === null ? '' : String(locus.scorableFromDays),
    note: locus.note ?? '',
  };
}

interface OwnLocusFormProps {
  locus: KnownLocus | null;
  onClose: () => void;
}

/** Defines a locus, or makes the next version of one. Penetrance and lethal genotypes are stated line by line. */
export function OwnLocusForm({ locus, onClose }: OwnLocusFormProps) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: startOf(locus) });
  const alleles = useFieldArray({ control: form.control, name: 'alleles' });
  const looks = useFieldArray({ control: form.control, name: 'looks' });
  const defining = useSave(DEFINE_LOCUS);
  const revising = useSave(REVISE_LOCUS);
  return (
    <RecordForm
      form={form}
      submit={locus === null ? 'Define the locus' : 'Save the next version'}
      saving={defining.saving || revising.saving}
      problem={defining.problem ?? revising.problem}
      onCancel={onClose}
      onSubmit={async (values) => {
        const { locusId, ...rest } = values;
        const saved =
          locus === null
            ? await defining.save({ input: { locusId, ...rest } })
            : await revising.save({
                input: { id: locus.recordId ?? '', revision: locus.revision ?? 0, ...rest },
              });
        if (saved !== null) onClose();
      }}
    >
      <FieldRow>
        <TextField name="name" label="Name" required />
        {locus === null && (
          <TextField
            name="locusId"
            label="Short name"
            required
            hint="Small letters; it cannot be changed later."
          />
        )}
        <NumberField name="scorableFromDays" label="Visible from" unit="days" />
      </FieldRow>
      <AlleleFields alleles={alleles} />
      <LookFields looks={looks} />
      <LongTextField name="note" label="What it is based on" />
    </RecordForm>
  );
}

function LookFields({ looks }: { looks: UseFieldArrayReturn<Typed, 'looks'> }) {
  return (
    <fieldset className={styles['looks']}>
      <legend>Appearance by genotype</legend>
      <p className="lw-quiet">
        Write <span className="lw-symbol">Mo/-</span> for at least one Mo and{' '}
        <span className="lw-symbol">-/-</span> for every other; the first line that fits counts.
        Where only some fish show it, give the share (9/10), and add another line with the same
        genotype for the rest. A surviving share of 0 marks a lethal genotype.
      </p>
      {looks.fields.map((field, i) => (
        <FieldRow key={field.id}>
          <TextField name={`looks.${i}.genotype`} label={`Genotype ${i + 1}`} required />
          <TextField name={`looks.${i}.phenotype`} label={`Appearance ${i + 1}`} required />
          <TextField name={`looks.${i}.share`} label={`Share that shows it ${i + 1}`} />
          <TextField name={`looks.${i}.survival`} label={`Surviving share ${i + 1}`} />
        </FieldRow>
      ))}
      <div className="lw-row-buttons">
        <Button size="xs" type="button" onClick={() => looks.append(blankLook)}>
          Add an appearance
        </Button>
        {looks.fields.length > 1 && (
          <Button size="xs" type="button" onClick={() => looks.remove(looks.fields.length - 1)}>
            Remove the last appearance
          </Button>
        )}
      </div>
    </fieldset>
  );
}

function AlleleFields({ alleles }: { alleles: UseFieldArrayReturn<Typed, 'alleles'> }) {
  return (
    <fieldset className={styles['looks']}>
      <legend>Alleles, most dominant first</legend>
      {alleles.fields.map((field, i) => (
        <FieldRow key={field.id}>
          <TextField name={`alleles.${i}.symbol`} label={`Symbol of allele ${i + 1}`} required />
          <TextField name={`alleles.${i}.name`} label={`What allele ${i + 1} does`} required />
        </FieldRow>
      ))}
      <div className="lw-row-buttons">
        <Button size="xs" type="button" onClick={() => alleles.append({ symbol: '', name: '' })}>
          Add an allele
        </Button>
        {alleles.fields.length > 2 && (
          <Button size="xs" type="button" onClick={() => alleles.remove(alleles.fields.length - 1)}>
            Remove the last allele
          </Button>
        )}
      </div>
    </fieldset>
  );
}
