import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import type { PairWarning } from '../api/judgement.js';
import { PLAN_PAIRING } from '../api/pairings.js';
import { useSave } from '../api/use-save.js';
import { given, optionalText, requiredDate } from '../components/field-rules.js';
import { DateField, TextField, TickField } from '../components/fields.js';
import { Done } from '../components/notice.js';
import { WarningList } from '../components/pair-judgement.js';
import { RecordForm } from '../components/record-form.js';
import { Sheet } from '../components/sheet.js';
import { today } from '../wording/figures.js';

const schema = z.object({
  plannedOn: requiredDate,
  reason: optionalText,
  note: optionalText,
  confirmed: z.boolean(),
});

interface PlannedFish {
  id: string;
  tag: string;
}

interface PlanPairingSheetProps {
  sire: PlannedFish;
  dam: PlannedFish;
  /** What is said of the pair: some of it refuses a plan, some asks to be confirmed. */
  warnings: readonly PairWarning[];
  onClose: () => void;
  onPlanned: () => void;
}

/** Records the plan to pair two fish, then offers the way on. */
export function PlanPairingSheet(props: PlanPairingSheetProps) {
  const { sire, dam, warnings, onClose, onPlanned } = props;
  const standing = warnings.filter(({ planning }) => planning !== 'FREE');
  const refused = warnings.some(({ planning }) => planning === 'REFUSE');
  const [planned, setPlanned] = useState(false);
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { plannedOn: today(), reason: '', note: '', confirmed: false },
  });
  const { save, saving, problem } = useSave(PLAN_PAIRING);
  // The day chosen may raise a warning that the pair had not today.
  const asks =
    standing.length > 0 || problem?.fields.some(({ field }) => field === 'confirmed') === true;
  return (
    <Sheet title={`Plan ${sire.tag} by ${dam.tag}`} opened onClose={onClose}>
      {planned ? (
        <Planned sire={sire} dam={dam} onClose={onClose} />
      ) : refused ? (
        <>
          <WarningList warnings={standing} />
          <p>This pair cannot be planned.</p>
          <div className="lw-form-buttons">
            <Button onClick={onClose}>Close</Button>
          </div>
        </>
      ) : (
        <RecordForm
          form={form}
          submit="Save plan"
          saving={saving}
          problem={problem}
          onCancel={onClose}
          onSubmit={async ({ plannedOn, confirmed, ...words }) => {
            const pair = { sireId: sire.id, damId: dam.id };
            const input = { ...pair, plannedOn, confirmed, ...given(words) };
            if ((await save({ input })) === null) return;
            setPlanned(true);
            onPlanned();
          }}
        >
          {standing.length > 0 && <WarningList warnings={standing} />}
          <DateField name="plannedOn" label="Planned on" required />
          <TextField name="reason" label="Reason" hint="Why these two. You may leave it blank." />
          <TextField name="note" label="Note" />
          {asks && <TickField name="confirmed" label="Plan this pair anyway" />}
        </RecordForm>
      )}
    </Sheet>
  );
}

function Planned({
  sire,
  dam,
  onClose,
}: {
  sire: PlannedFish;
  dam: PlannedFish;
  onClose: () => void;
}) {
  return (
    <>
      <Done>
        <p>
          {sire.tag} by {dam.tag} is planned. Record its spawn from the planned pairings when they
          have spawned.
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
  );
}
