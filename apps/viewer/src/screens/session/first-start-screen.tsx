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
import styles from './session.module.css';

const own = {
  personName: requiredText('Give your name: it stands beside your records.'),
  ...newPassword,
};
const schema = z.object({ ...own, code: z.string() }).refine(sameTwice, typedTwice);
const schemaWithCode = z
  .object({ ...own, code: requiredText('Type the code that the console of the server shows.') })
  .refine(sameTwice, typedTwice);

function SetUpForm({ codeNeeded, onReady }: { codeNeeded: boolean; onReady: () => void }) {
  const form = useForm({
    resolver: zodResolver(codeNeeded ? schemaWithCode : schema),
    defaultValues: { personName: '', password: '', repeat: '', code: '' },
  });
  const { save, saving, problem } = useSave(SET_UP);
  return (
    <RecordForm
      fleeting
      form={form}
      submit="Start keeping records"
      saving={saving}
      problem={problem}
      onSubmit={async ({ personName, password, code }) => {
        const input = { personName, password, ...(codeNeeded && { code }) };
        if ((await save({ input })) !== null) onReady();
      }}
    >
      <TextField
        name="personName"
        label="Your name"
        hint="Shown beside your fish when you share a line."
        required
        autoComplete="name"
      />
      <NewPasswordFields />
      {codeNeeded && (
        <TextField
          name="code"
          label="Code"
          hint="The console where the server was started shows it. It proves that this install is yours."
          required
          autoComplete="one-time-code"
        />
      )}
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
        Records stay on the computer that runs Linewright. Set a name and a password, then add fish
        by hand or import a CSV file.
      </p>
      <SetUpForm codeNeeded={session.codeNeeded} onReady={onReady} />
      {session.demoOffered && (
        <section className={styles['alone-demo']}>
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
