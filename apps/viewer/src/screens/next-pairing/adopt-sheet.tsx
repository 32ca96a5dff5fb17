import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import { ADOPT_ROUND, type Proposal } from '../../api/rounds.js';
import { useSave } from '../../api/use-save.js';
import { given, optionalText, requiredDate } from '../../components/field-rules.js';
import { DateField, TextField, TickField } from '../../components/fields.js';
import { Done } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { plural, today } from '../../wording/figures.js';
import { standingWords } from './proposal-words.js';

const schema = z.object({ plannedOn: requiredDate, note: optionalText, confirmed: z.boolean() });

interface AdoptSheetProps {
  lineId: string;
  proposal: Proposal;
  onClose: () => void;
}

/** Plans all pairs of a proposal at once, as one round. */
export function AdoptSheet({ lineId, proposal, onClose }: AdoptSheetProps) {
  // What was adopted stays, whatever is proposed then.
  const [{ pairs, purposeVersion, kinshipLimit, standing }] = useState(proposal);
  const [adopted, setAdopted] = useState<string | null>(null);
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { plannedOn: today(), note: '', confirmed: false },
  });
  const { save, saving, problem } = useSave(ADOPT_ROUND);
  const asks = problem?.fields.some(({ field }) => field === 'confirmed') === true;
  return (
    <Sheet title={`Make ${plural(pairs.length, 'pair')}`} opened onClose={onClose}>
      {adopted !== null ? (
        <>
          <Done>
            <p>
              {plural(pairs.length, 'pair is', 'pairs are')} planned, as one round. Record each
              spawn from the planned pairings when they have spawned.
            </p>
          </Done>
          <div className="lw-form-buttons">
            <Link to={`/rounds/${adopted}`}>The round’s page</Link>
            <Link to="/planned">Planned pairings</Link>
            <Button onClick={onClose}>Done</Button>
          </div>
        </>
      ) : (
        <RecordForm
          form={form}
          submit="Plan these pairs"
          saving={saving}
          problem={problem}
          onCancel={onClose}
          onSubmit={async ({ plannedOn, confirmed, ...words }) => {
            const input = {
              ...{ lineId, plannedOn, confirmed, expectedPurposeVersion: purposeVersion },
              ...(kinshipLimit !== null && { kinshipLimit }),
              pairs: pairs.map(({ sire, dam }) => ({ sireId: sire.id, damId: dam.id })),
              ...given(words),
            };
            const saved = await save({ input });
            if (saved !== null) setAdopted(saved.adoptRound.id);
          }}
        >
          {standing !== null && (
            <p>{standingWords(standing)} These come beside them, as a round of their own.</p>
          )}
          <ul>
            {pairs.map(({ sire, dam }) => (
              <li key={`${sire.id} ${dam.id}`}>
                {sire.tag} by {dam.tag}
              </li>
            ))}
          </ul>
          <DateField name="plannedOn" label="Planned on" required />
          <TextField name="note" label="Note" />
          {asks && <TickField name="confirmed" label="Plan these pairs anyway" />}
        </RecordForm>
      )}
    </Sheet>
  );
}
