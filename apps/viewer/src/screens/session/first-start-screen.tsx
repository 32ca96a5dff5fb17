import { Button } from '@mantine/core';
import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { LOAD_DEMO, SET_UP, type Session } from '../../api/session.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { ProblemNotice } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Masthead } from './masthead.js';
import { NewPasswordFields, newPassword, sameTwice, typedTwice } from './new-password.js';

const schema = z
  .object({
    keeperName: requiredText('Give your name: it stands beside your records.'),
    ...newPassword,
  })
  .refine(sameTwice, typedTwice);

function SetUpForm({ onReady }: { onReady: () => void }) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { keeperName: '', password: '', repeat: '' },
  });
  const { save, saving, problem } = useSave(SET_UP);
  return (
    <RecordForm
      form={form}
      submit="Start keeping records"
      saving={saving}
      problem={problem}
      onSubmit={async ({ keeperName, password }) => {
        if ((await save({ input: { keeperName, password } })) !== null) onReady();
      }}
    >
      <TextField
        name="keeperName"
        label="Your name"
        hint="Shown beside your fish when you share a line."
        required
        autoComplete="name"
      />
      <NewPasswordFields />
    </RecordForm>
  );
}

export function FirstStartScreen({ session, onReady }: { session: Session; onReady: () => void }) {
  const demo = useSave(LOAD_DEMO);
  return (
    <main className="lw-alone">
      <title>First start · Linewright</title>
      <Masthead />
      <h1>First start</h1>
      <p>
        Records stay on this computer. Set a name and a password, then add fish by hand or import a
        CSV file.
      </p>
      <SetUpForm onReady={onReady} />
      {session.demoOffered && (
        <section className="lw-alone-demo">
          <h2>Or look around first</h2>
          <p>
            The demo has two invented people and three lines over several generations. It needs no
            password and opens on this computer only.
          </p>
          <Button
            loading={demo.saving}
            onClick={async () => {
              if ((await demo.save({})) !== null) onReady();
            }}
          >
            Open the demo
          </Button>
          <ProblemNotice problem={demo.problem} />
        </section>
      )}
    </main>
  );
}
