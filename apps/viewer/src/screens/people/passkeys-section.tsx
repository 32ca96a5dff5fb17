import { Button } from '@mantine/core';
import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { REMOVE_PASSKEY, type WaysIn } from '../../api/ways-in.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { ProblemNotice } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { passkeysHere } from '../../session/passkeys.js';
import { useAddedPasskey } from '../../session/use-passkey.js';
import { showTime } from '../../wording/figures.js';
import { endColumn } from './end-column.js';
import { OwnPasswordField, ownPassword } from './password-field.js';

type Passkey = WaysIn['passkeys'][number];

/** Keys on a person's own devices, which sign in by themselves. */
export function PasskeysSection({ passkeys }: { passkeys: readonly Passkey[] }) {
  const [adding, setAdding] = useState(false);
  const { possible, why } = passkeysHere(window);
  return (
    <Section
      title="Passkeys"
      actions={possible && <Button onClick={() => setAdding(true)}>Add a passkey</Button>}
    >
      <p className="lw-words">
        A passkey is a key on a device of yours. It signs in without password and code, once the
        device is unlocked, and opens nothing at any other address.
      </p>
      {why !== null && <p className="lw-words">{why}</p>}
      {passkeys.length > 0 && <Passkeys passkeys={passkeys} />}
      <Sheet title="Add a passkey" opened={adding} onClose={() => setAdding(false)}>
        <AddPasskey onDone={() => setAdding(false)} />
      </Sheet>
    </Section>
  );
}

function Passkeys({ passkeys }: { passkeys: readonly Passkey[] }) {
  const { save, saving, problem } = useSave(REMOVE_PASSKEY);
  return (
    <>
      <DataTable
        caption="Passkeys"
        rows={passkeys}
        rowKey={({ id }) => id}
        columns={[
          { key: 'name', title: 'Device', cell: ({ name }) => name },
          {
            key: 'used',
            title: 'Last used',
            unbroken: true,
            cell: ({ usedAt }) => (usedAt === null ? 'never' : showTime(usedAt)),
          },
          {
            key: 'added',
            title: 'Added',
            unbroken: true,
            wideOnly: true,
            cell: ({ createdAt }) => showTime(createdAt),
          },
          endColumn<Passkey>({
            ...{ word: 'Remove', saving },
            label: ({ name }) => `Remove the passkey ${name}`,
            onEnd: ({ id }) => void save({ id }),
          }),
        ]}
      />
      <ProblemNotice problem={problem} />
    </>
  );
}

const schema = z.object({
  name: requiredText('Name the device, so that you know it again.'),
  ...ownPassword,
});

function AddPasskey({ onDone }: { onDone: () => void }) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { name: '', password: '' },
  });
  const { add, adding, problem } = useAddedPasskey();
  return (
    <RecordForm
      form={form}
      submit="Make the passkey"
      saving={adding}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (given) => {
        if (await add(given)) onDone();
      }}
    >
      <TextField name="name" label="Device" hint="Such as: blue phone." required />
      <OwnPasswordField />
    </RecordForm>
  );
}
