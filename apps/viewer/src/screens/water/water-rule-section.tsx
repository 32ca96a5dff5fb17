import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import {
  ammoniaLimits,
  neverAcidCaution,
  nitrogenGuides,
  standingPHCaution,
} from '@linewright/care';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { SET_WATER_RULE, WATER_RULE, type WaterRule } from '../../api/water.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { optionalNumber, requiredNumber, wholeNumber } from '../../components/field-rules.js';
import { ChoiceField, NumberField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { ammoniaUnitChoices, ammoniaUnitWord } from '../../wording/water-words.js';
import type { Column } from '../../components/data-table.js';

/** By what readings are judged: the person's to change, with where each figure comes from. */
export function WaterRuleSection() {
  const [open, setOpen] = useState(false);
  const read = useRead(WATER_RULE, {});
  return (
    <Section
      title="Your rule"
      actions={
        <Button size="xs" onClick={() => setOpen(true)}>
          Change the rule
        </Button>
      }
    >
      <Shown read={read} what="the rule">
        {({ waterRule }) => (
          <>
            <RuleFacts rule={waterRule} />
            <Sheet title="By what water is judged" opened={open} onClose={() => setOpen(false)}>
              <RuleForm rule={waterRule} onClose={() => setOpen(false)} />
            </Sheet>
          </>
        )}
      </Shown>
      <h3>Limits and guides, and how sure they are</h3>
      <DataTable
        caption="Limits and guides"
        rows={[
          ...ammoniaLimits.map((limit) => ({
            key: limit.id,
            what: `Un-ionised ammonia: ${limit.name}`,
            value: `${limit.value} ${ammoniaUnitWord[limit.unit]}`,
            source: limit.source,
            remark: limit.remark,
          })),
          ...nitrogenGuides.map((guide) => ({
            key: guide.of,
            what: `${guide.of === 'nitrite' ? 'Nitrite' : 'Nitrate'}, a guide`,
            value: `${guide.value}${guide.form === 'ion' ? ' as the ion' : ''}`,
            source: guide.source,
            remark: `${guide.text} ${guide.remedy}`,
          })),
        ]}
        rowKey={(row) => row.key}
        columns={limitColumns()}
      />
    </Section>
  );
}

function limitColumns(): readonly Column<
  | {
      key: 'guidance' | 'canada-chronic' | 'extension-harm' | 'extension-deaths';
      what: string;
      value: string;
      source: string;
      remark: string;
    }
  | { key: 'nitrite' | 'nitrate'; what: string; value: string; source: string; remark: string }
>[] {
  return [
    { key: 'what', title: 'What', cell: (row) => row.what },
    { key: 'value', title: 'mg/L', number: true, cell: (row) => row.value },
    { key: 'source', title: 'Source', cell: (row) => row.source },
    { key: 'remark', title: 'Remark', wideOnly: true, cell: (row) => row.remark },
  ];
}

function RuleFacts({ rule }: { rule: WaterRule }) {
  const asTank = 'taken as in the tank';
  return (
    <Facts
      facts={[
        {
          name: 'Limit',
          value: `${rule.limit} mg/L un-ionised ammonia ${ammoniaUnitWord[rule.limitUnit]}${rule.own ? '' : ' (usual guidance: common practice, no source)'}`,
        },
        {
          name: 'A reading holds',
          value: `${rule.trustHours} hours (a rule of practice, without a source)`,
        },
        {
          name: 'New water',
          value: `ammonia ${rule.sourceTotalAsN} mg/L as N, pH ${rule.sourcePH ?? asTank}, temperature ${rule.sourceCelsius === null ? asTank : `${rule.sourceCelsius} °C`}`,
        },
      ]}
    />
  );
}

const schema = z.object({
  limit: requiredNumber,
  limitUnit: z.enum(['N', 'NH4', 'NH3']),
  trustHours: wholeNumber(1, 720),
  sourceTotalAsN: optionalNumber,
  sourcePH: optionalNumber,
  sourceCelsius: optionalNumber,
});

function RuleForm({ rule, onClose }: { rule: WaterRule; onClose: () => void }) {
  const text = (value: number | null) => (value === null ? '' : String(value));
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      limit: text(rule.limit),
      limitUnit: rule.limitUnit,
      trustHours: text(rule.trustHours),
      sourceTotalAsN: text(rule.sourceTotalAsN),
      sourcePH: text(rule.sourcePH),
      sourceCelsius: text(rule.sourceCelsius),
    },
  });
  const { save, saving, problem } = useSave(SET_WATER_RULE);
  return (
    <RecordForm
      form={form}
      submit="Save the rule"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (input) => {
        if ((await save({ input })) !== null) onClose();
      }}
    >
      <FieldRow>
        <NumberField name="limit" label="Limit for un-ionised ammonia" unit="mg/L" required />
        <ChoiceField
          name="limitUnit"
          label="The limit counts it"
          choices={ammoniaUnitChoices.map(({ value, label }) => ({ value, label }))}
        />
      </FieldRow>
      <NumberField
        name="trustHours"
        label="A reading holds for"
        unit="hours"
        required
        hint="Common practice, no source: a day for a stocked, fed vessel."
      />
      <FieldRow>
        <NumberField name="sourceTotalAsN" label="Ammonia of your new water, as N" unit="mg/L" />
        <NumberField name="sourcePH" label="pH of your new water" />
        <NumberField name="sourceCelsius" label="Its temperature" unit="°C" />
      </FieldRow>
      <p className="lw-hint">
        Blank pH or temperature: taken as in the tank. Measure them: a higher pH makes what ammonia
        is left more poisonous. {standingPHCaution} {neverAcidCaution}
      </p>
    </RecordForm>
  );
}
