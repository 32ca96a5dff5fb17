import { zodResolver } from '@hookform/resolvers/zod';
import { useRef } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { newId } from '../../api/new-id.js';
import { useSave } from '../../api/use-save.js';
import { CORRECT_VESSEL, CREATE_VESSELS, type Vessel } from '../../api/vessels.js';
import {
  optionalNumber,
  optionalText,
  optionalWholeNumber,
  requiredText,
} from '../../components/field-rules.js';
import { ChoiceField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { vesselKindWord } from '../../wording/vessel-words.js';
import { optionsOf } from '../../wording/words.js';

const schema = z.object({
  code: requiredText('Give the vessel a code: what stands on it.'),
  kind: z.enum(['JAR', 'TANK', 'TUB', 'CONE', 'OTHER']),
  litres: optionalNumber,
  rack: optionalText,
  shelf: optionalWholeNumber,
  position: optionalWholeNumber,
  note: optionalText,
});

interface VesselFormProps {
  /** The code that was scanned or typed, for a new one. */
  code?: string;
  /** The vessel to correct; a new one is recorded when left out. */
  vessel?: Vessel;
  onSaved: (made: { id: string; code: string }) => void;
  onCancel: () => void;
}

const typed = (value: number | null | undefined): string => (value == null ? '' : String(value));

/** A vessel by itself: new, or corrected. */
export function VesselForm({ code = '', vessel, onSaved, onCancel }: VesselFormProps) {
  const id = useRef(newId());
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      code: vessel?.code ?? code,
      kind: vessel?.kind ?? 'JAR',
      litres: typed(vessel?.litres),
      rack: vessel?.rack ?? '',
      shelf: typed(vessel?.shelf),
      position: typed(vessel?.position),
      note: vessel?.note ?? '',
    },
  });
  const making = useSave(CREATE_VESSELS);
  const correcting = useSave(CORRECT_VESSEL);
  const { saving, problem } = vessel === undefined ? making : correcting;
  return (
    <RecordForm
      form={form}
      submit={vessel === undefined ? 'Save vessel' : 'Save correction'}
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (values) => {
        const saved =
          vessel === undefined
            ? await making.save({ input: [{ id: id.current, ...values }] })
            : await correcting.save({
                input: { id: vessel.id, revision: vessel.revision, ...values },
              });
        if (saved !== null) onSaved({ id: vessel?.id ?? id.current, code: values.code });
      }}
    >
      <TextField name="code" label="Code" required hint="What stands on it, such as B 13." />
      <FieldRow>
        <ChoiceField name="kind" label="Kind" choices={optionsOf(vesselKindWord)} />
        <NumberField name="litres" label="Holds" unit="litres" />
      </FieldRow>
      <FieldRow>
        <TextField name="rack" label="Rack" />
        <NumberField name="shelf" label="Shelf" hint="1 is the uppermost." />
        <NumberField name="position" label="Position" hint="1 is the leftmost." />
      </FieldRow>
      <TextField name="note" label="Note" />
    </RecordForm>
  );
}
