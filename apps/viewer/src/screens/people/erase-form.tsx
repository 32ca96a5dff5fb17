import { zodResolver } from '@hookform/resolvers/zod';
import type { ReactNode } from 'react';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { ERASE_OWN_DATA, type OwnData } from '../../api/own-data.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { ChoiceField, TextField, TickField } from '../../components/fields.js';
import { Caution } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { useSession } from '../../session/session-context.js';
import { plural } from '../../wording/figures.js';
import { useLeaveDevice } from '../session/use-leave-device.js';
import { erased, type Afterwards } from './erase-input.js';
import { OwnPasswordField, ownPassword } from './password-field.js';

interface EraseFormProps {
  own: OwnData;
  takeOut: ReactNode;
  onCancel: () => void;
}

const schema = z.object({
  afterwards: z.enum(['', 'HAND_OVER', 'END']),
  heirId: z.string(),
  withBackups: z.boolean(),
  confirm: requiredText('Type your name, so that it does not happen by mistake.'),
  ...ownPassword,
});

/** Says what goes, what stays and why, and asks for the name and the password. */
export function EraseForm({ own, takeOut, onCancel }: EraseFormProps) {
  const { role, person, hasPassword } = useSession();
  const isOwner = role === 'OWNER';
  const leaveDevice = useLeaveDevice();
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ afterwards: '' as Afterwards, heirId: own.heirs[0]?.id ?? '', withBackups: false },
      ...{ confirm: '', password: '' },
    },
  });
  const { save, saving, problem } = useSave(ERASE_OWN_DATA);
  const afterwards = useWatch({ control: form.control, name: 'afterwards' });
  if (!hasPassword)
    return (
      <p>
        Set a password first: it is asked for here, so that nobody else who uses this computer can
        erase anything. The demo is cleared on the page “Export and backup”.
      </p>
    );
  return (
    <RecordForm
      danger
      form={form}
      submit={afterwards === 'END' ? 'End the install' : 'Erase my data'}
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (given) => {
        if ((await save(erased(given))) !== null) await leaveDevice();
      }}
    >
      {isOwner ? (
        <OwnerLeaves own={own} afterwards={afterwards} />
      ) : (
        <PartnerLeaves own={own} keepsForOwner={role === 'HOUSEHOLD'} />
      )}
      <Backups own={own} mayGo={isOwner && afterwards === 'END'} />
      <Caution>This cannot be undone. {takeOut} first, if you may want it later.</Caution>
      <TextField
        name="confirm"
        required
        label="Your name"
        hint={`As it stands here: ${person?.name ?? ''}`}
      />
      <OwnPasswordField />
    </RecordForm>
  );
}

function PartnerLeaves({ own, keepsForOwner }: { own: OwnData; keepsForOwner: boolean }) {
  return (
    <>
      <p>
        <strong>What goes:</strong> your account with every way in, your name, and of your fish and
        spawns tag, name, note, origin, place, log, counts, care, water, looks, genotypes and
        photos, also in the history.
      </p>
      <p>
        <strong>What stays:</strong> parents, sexes, and days of hatching and spawning of your fish,
        under the name “{own.pseudonym}”: how closely others’ fish are related is worked out from
        them. Figures that you scored on others’ fish stay without your name and notes. What others
        wrote is theirs.
      </p>
      {keepsForOwner && (
        <p>The records that you kept for the owner are the owner’s and stay, without your name.</p>
      )}
    </>
  );
}

function OwnerLeaves({ own, afterwards }: { own: OwnData; afterwards: Afterwards }) {
  const choices = [
    { value: '', label: 'choose' },
    ...(own.heirs.length > 0
      ? [{ value: 'HAND_OVER', label: 'hand it to somebody of the household' }]
      : []),
    { value: 'END', label: 'end it, with everything in it' },
  ];
  return (
    <>
      {own.others > 0 && (
        <p>
          {plural(own.others, 'other person')} may sign in here, or have an install that is paired
          with this one.
        </p>
      )}
      <ChoiceField name="afterwards" label="What becomes of this install" choices={choices} />
      {own.heirs.length === 0 && (
        <p className="lw-quiet">
          To hand it over, invite somebody to the household first; once they have signed in, they
          can be chosen here.
        </p>
      )}
      {afterwards === 'HAND_OVER' && (
        <>
          <ChoiceField
            name="heirId"
            label="It becomes the install of"
            choices={own.heirs.map(({ id, name }) => ({ value: id, label: name }))}
          />
          <p>
            <strong>What goes:</strong> your account with every way in, and your name; in the
            history it becomes “{own.pseudonym}”. <strong>What stays:</strong> all records, with
            notes and photos: they are the new owner’s. Partners stay paired and keep what was
            shared.
          </p>
        </>
      )}
      {afterwards === 'END' && (
        <p>
          <strong>What goes:</strong> every record, photo and account, for everybody, and what lies
          in partners’ folders for them. <strong>What stays:</strong> what partners have taken in.
        </p>
      )}
    </>
  );
}

function Backups({ own: { backups }, mayGo }: { own: OwnData; mayGo: boolean }) {
  const { count, folders } = backups;
  if (count === 0)
    return (
      <p>
        No backup of this install is known. Copies of it, and files of lines that were given away,
        still hold what was in them.
      </p>
    );
  return (
    <>
      <p>
        <strong>Not reached:</strong> {plural(count, 'backup')} made before
        {folders.length > 0 ? ` (in ${folders.join(' and ')})` : ''} still{' '}
        {count === 1 ? 'holds' : 'hold'} what was recorded, and a restore brings it back. So do
        other copies, and files of lines that were given away.
      </p>
      {mayGo && <TickField name="withBackups" label="Delete these backups as well" />}
    </>
  );
}
