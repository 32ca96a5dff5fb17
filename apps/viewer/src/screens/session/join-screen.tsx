import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import { ACCEPT_INVITATION, INVITATION } from '../../api/people.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { RecordForm } from '../../components/record-form.js';
import { Shown } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';
import { Masthead } from './masthead.js';
import { NewPasswordFields, newPassword, sameTwice, typedTwice } from './new-password.js';

const schema = z.object(newPassword).refine(sameTwice, typedTwice);

function JoinForm({ token }: { token: string }) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { password: '', repeat: '' },
  });
  const { save, saving, problem } = useSave(ACCEPT_INVITATION);
  return (
    <RecordForm
      fleeting
      form={form}
      submit="Come in"
      saving={saving}
      problem={problem}
      onSubmit={async ({ password }) => {
        if ((await save({ input: { token, password } })) === null) return;
        // A fresh page, without the link in its address.
        window.location.replace('/');
      }}
    >
      <NewPasswordFields />
    </RecordForm>
  );
}

function Joining({ token }: { token: string }) {
  const read = useRead(INVITATION, { token });
  return (
    <Shown read={read} what="the invitation">
      {({ invitation }) => (
        <>
          <p>
            {invitation.ownerName} invites you, {invitation.name}, to see records kept here. Choose
            a password: from then on you sign in with the name <b>{invitation.name}</b> and this
            password. The link works once, until {showTime(invitation.expiresAt)}.
          </p>
          <JoinForm token={token} />
        </>
      )}
    </Shown>
  );
}

/** Where the link of an invitation leads; its token stands behind the "#". */
export function JoinScreen() {
  // Read once: the address may be cleared while the form is open.
  const [token] = useState(() => window.location.hash.slice(1));
  return (
    <main className="lw-alone">
      <title>Invitation · Linewright</title>
      <Masthead />
      <h1>Invitation</h1>
      {token === '' ? (
        <p>
          Part of the link is missing: open it as it was sent, or ask for a new one.{' '}
          <Link to="/">Go to the sign-in</Link>
        </p>
      ) : (
        <Joining token={token} />
      )}
    </main>
  );
}
