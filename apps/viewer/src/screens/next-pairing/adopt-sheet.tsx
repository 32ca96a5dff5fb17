import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import { ADOPT_ROUND, type Proposal } from '../../api/rounds.js';
import { useSave } from '../../api/use-save.js';
import { optionalText, requiredDate } from '../../components/field-rules.js';
import { DateField, TextField, TickField } from '../../components/fields.js';
import { Done } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { plural } from '../../wording/figures.js';
import { type Adopting, adoptionOf } from './adoption.js';
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
  const [adopting] = useState<Adopting>(proposal);
  const [adopted, setAdopted] = useState<string | null>(null);
  const { length } = adopting.pairs;
  return (
    <Sheet title={`Make ${plural(length, 'pair')}`} opened onClose={onClose}>
      {adopted === null ? (
        <AdoptForm {...{ lineId, adopting, onClose }} onAdopted={setAdopted} />
      ) : (
        <>
          <Done>
            <p>
              {plural(length, 'pair is', 'pairs are')} planned, as one round. Record each spawn from
              the planned pairings when they have spawned.
            </p>
          </Done>
          <div className="lw-form-buttons">
            <Link to={`/rounds/${adopted}`}>The round’s page</Link>
            <Link to="/planned">Planned pairings</Link>
            <Button onClick={onClose}>Done</Button>
          </div>
        </>
      )}
    </Sheet>
  );
}

interface AdoptFormProps {
  lineId: string;
  adopting: Adopting;
  onAdopted: (roundId: string) => void;
  onClose: () => void;
}

function AdoptForm({ lineId, adopting, onAdopted, onClose }: AdoptFormProps) {
  const { pairs, standing } = adopting;
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { plannedOn: adopting.day, note: '', confirmed: false },
  });
  const { save, saving, problem } = useSave(ADOPT_ROUND);
  const asks = problem?.fields.some(({ field }) => field === 'confirmed') === true;
  return (
    <RecordForm
      form={form}
      submit="Plan these pairs"
      saving={saving}
      problem={problem}
      onCancel={onClose}
      onSubmit={async (typed) => {
        const saved = await save({ input: adoptionOf(lineId, adopting, typed) });
        if (saved !== null) onAdopted(saved.adoptRound.id);
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
  );
}
