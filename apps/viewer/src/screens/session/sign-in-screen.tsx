import { Button } from '@mantine/core';
import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { OPEN_DEMO, SIGN_IN, type Session } from '../../api/session.js';
import { useSave } from '../../api/use-save.js';
import { SecretField, TextField } from '../../components/fields.js';
import { ProblemNotice } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { passkeysHere } from '../../session/passkeys.js';
import { usePasskeySignIn } from '../../session/use-passkey.js';
import { Masthead } from './masthead.js';
import styles from './session.module.css';

const schema = z.object({
  name: z.string(),
  password: z.string().min(1, 'Type your password.'),
  code: z.string(),
});

export function SignInForm({ onSignedIn }: { onSignedIn: () => void }) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { name: '', password: '', code: '' },
  });
  const { save, saving, problem } = useSave(SIGN_IN);
  const [askedForCode, setAskedForCode] = useState(false);
  if (problem?.code === 'CODE_NEEDED' && !askedForCode) setAskedForCode(true);
  return (
    <>
      <RecordForm
        fleeting
        form={form}
        submit="Sign in"
        saving={saving}
        // The field that appears asks for it.
        problem={problem?.code === 'CODE_NEEDED' ? null : problem}
        onSubmit={async ({ name, password, code }) => {
          if ((await save({ name, password, code })) !== null) onSignedIn();
        }}
      >
        <TextField
          name="name"
          label="Name"
          hint="The owner of the records may leave it empty."
          autoComplete="username"
        />
        <SecretField name="password" label="Password" autoComplete="current-password" />
        {askedForCode && (
          <TextField
            name="code"
            label="Code"
            hint="The one that your phone shows for Linewright now, or one of your spare codes."
            autoComplete="one-time-code"
            required
            atOnce
          />
        )}
      </RecordForm>
      <PasskeyButton onSignedIn={onSignedIn} />
    </>
  );
}

function PasskeyButton({ onSignedIn }: { onSignedIn: () => void }) {
  const { signIn, signingIn, problem } = usePasskeySignIn();
  if (!passkeysHere(window).possible) return null;
  return (
    <div className={styles['passkey']}>
      <Button
        loading={signingIn}
        onClick={async () => {
          if (await signIn()) onSignedIn();
        }}
      >
        Sign in with a passkey
      </Button>
      <ProblemNotice problem={problem} />
    </div>
  );
}

export function OpenDemoButton({ onOpened }: { onOpened: () => void }) {
  const { save, saving, problem } = useSave(OPEN_DEMO);
  return (
    <>
      <Button
        className="lw-primary"
        loading={saving}
        onClick={async () => {
          if ((await save({})) !== null) onOpened();
        }}
      >
        Open the demo
      </Button>
      <ProblemNotice problem={problem} />
    </>
  );
}

/** The demo has no password: where it is offered, one click opens it. */
export function SignInScreen({ session, onReady }: { session: Session; onReady: () => void }) {
  return (
    <main className="lw-alone">
      <title>Sign in · Linewright</title>
      <Masthead />
      {session.demoOffered ? (
        <>
          <h1>The demo</h1>
          <p>
            The records here are the demo: invented people and fish. It has no password and opens on
            this computer only.
          </p>
          <OpenDemoButton onOpened={onReady} />
        </>
      ) : (
        <>
          <h1>Sign in</h1>
          <SignInForm onSignedIn={onReady} />
          <p className="lw-quiet">
            Lost the password? Or the phone with the codes? A partner asks the owner for a new link.
            The owner types <code>npm run password</code> on the computer that Linewright runs on,
            in its folder: it asks for a new one. No record is touched.
          </p>
        </>
      )}
    </main>
  );
}
