import { Button } from '@mantine/core';
import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { OPEN_DEMO, SIGN_IN, type Session } from '../../api/session.js';
import { useSave } from '../../api/use-save.js';
import { SecretField } from '../../components/fields.js';
import { ProblemNotice } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Masthead } from './masthead.js';

const schema = z.object({ password: z.string().min(1, 'Type your password.') });

export function SignInForm({ onSignedIn }: { onSignedIn: () => void }) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: { password: '' } });
  const { save, saving, problem } = useSave(SIGN_IN);
  return (
    <RecordForm
      form={form}
      submit="Sign in"
      saving={saving}
      problem={problem}
      onSubmit={async ({ password }) => {
        if ((await save({ password })) !== null) onSignedIn();
      }}
    >
      <SecretField name="password" label="Password" autoComplete="current-password" />
    </RecordForm>
  );
}

export function SignInScreen({ session, onReady }: { session: Session; onReady: () => void }) {
  const demo = useSave(OPEN_DEMO);
  return (
    <main className="lw-alone">
      <title>Sign in · Linewright</title>
      <Masthead />
      <h1>Sign in{session.keeper === null ? '' : ` as ${session.keeper.name}`}</h1>
      <SignInForm onSignedIn={onReady} />
      {session.demoOffered && (
        <section className="lw-alone-demo">
          <h2>Or look round the demo</h2>
          <p>Invented keepers and fish, open on this computer only.</p>
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
