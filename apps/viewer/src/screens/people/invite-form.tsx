import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { ACCOUNTS, INVITE_PERSON, PEOPLE } from '../../api/people.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { ChoiceField, TextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { ROLES } from './account-words.js';

/** A link as it is told, once. */
export interface NewLink {
  name: string;
  path: string;
  expiresAt: string;
}

const schema = z.object({
  personId: z.string(),
  name: requiredText('Give the name under which they will sign in.'),
  role: z.enum(['PARTNER', 'HOUSEHOLD', 'KEEPER']),
});

/** People on record who have no account: partners met through shared lines, and whoever left. */
function useWithoutAccount() {
  const people = useRead(PEOPLE, {}).data?.people ?? [];
  const accounts = useRead(ACCOUNTS, {}).data?.accounts ?? [];
  const taken = new Set(accounts.map(({ person }) => person.id));
  return people.filter(({ id }) => !taken.has(id));
}

export function InviteForm({
  onInvited,
  onCancel,
}: {
  onInvited: (link: NewLink) => void;
  onCancel: () => void;
}) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { personId: '', name: '', role: 'PARTNER' as const },
  });
  const { save, saving, problem } = useSave(INVITE_PERSON);
  const onRecord = useWithoutAccount();
  return (
    <RecordForm
      form={form}
      submit="Make the link"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ personId, name, role }) => {
        const input = { name, role, ...(personId !== '' && { personId }) };
        const saved = await save({ input });
        if (saved !== null) onInvited({ name, ...saved.invitePerson });
      }}
    >
      {onRecord.length > 0 && (
        <ChoiceField
          name="personId"
          label="Who"
          hint="Somebody on record keeps the records that are theirs already."
          choices={[
            { value: '', label: 'Somebody new' },
            ...onRecord.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChosen={(id) =>
            form.setValue('name', onRecord.find((each) => each.id === id)?.name ?? '')
          }
        />
      )}
      <TextField
        name="name"
        label="Name"
        hint="They sign in with it, and it stands beside what they record."
        required
      />
      <ChoiceField
        name="role"
        label="As"
        choices={[
          { value: 'PARTNER', label: ROLES.PARTNER },
          { value: 'HOUSEHOLD', label: ROLES.HOUSEHOLD },
          { value: 'KEEPER', label: ROLES.KEEPER },
        ]}
      />
    </RecordForm>
  );
}
