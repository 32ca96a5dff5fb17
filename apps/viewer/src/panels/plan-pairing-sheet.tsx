import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import { PLAN_PAIRING } from '../api/pairings.js';
import { useSave } from '../api/use-save.js';
import { given, optionalText, requiredDate } from '../components/field-rules.js';
import { DateField, TextField } from '../components/fields.js';
import { Done } from '../components/notice.js';
import { RecordForm } from '../components/record-form.js';
import { Sheet } from '../components/sheet.js';
import { today } from '../wording/figures.js';

const schema = z.object({ plannedOn: requiredDate, reason: optionalText, note: optionalText });

interface PlannedFish {
  id: string;
  tag: string;
}

interface PlanPairingSheetProps {
  sire: PlannedFish;
  dam: PlannedFish;
  onClose: () => void;
  onPlanned: () => void;
}

/** Records the plan to pair two fish, then offers the way on. */
export function PlanPairingSheet({ sire, dam, onClose, onPlanned }: PlanPairingSheetProps) {
  const [planned, setPlanned] = useState(false);
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { plannedOn: today(), reason: '', note: '' },
  });
  const { save, saving, problem } = useSave(PLAN_PAIRING);
  return (
    <Sheet title={`Plan ${sire.tag} by ${dam.tag}`} opened onClose={onClose}>
      {planned ? (
        <>
          <Done>
            <p>
              {sire.tag} by {dam.tag} is planned. Record its spawn from the planned pairings when
              they have spawned.
            </p>
          </Done>
          <div className="lw-form-buttons">
            <Link to="/planned">Planned pairings</Link>
            <Link to={`/pair/${sire.id}/${dam.id}`} onClick={onClose}>
              This pair
            </Link>
            <Button onClick={onClose}>Done</Button>
          </div>
        </>
      ) : (
        <RecordForm
          form={form}
          submit="Save plan"
          saving={saving}
          problem={problem}
          onCancel={onClose}
          onSubmit={async ({ plannedOn, ...words }) => {
            const input = { sireId: sire.id, damId: dam.id, plannedOn, ...given(words) };
            if ((await save({ input })) === null) return;
            setPlanned(true);
            onPlanned();
          }}
        >
          <DateField name="plannedOn" label="Planned on" required />
          <TextField name="reason" label="Reason" hint="Why these two. You may leave it blank." />
          <TextField name="note" label="Note" />
        </RecordForm>
      )}
    </Sheet>
  );
}
