import { Button } from '@mantine/core';
import { useState } from 'react';
import { ACCOUNTS, END_ACCOUNT, RENEW_INVITATION, type Account } from '../../api/people.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { ProblemNotice } from '../../components/notice.js';
import { SecretAddress } from '../../components/secret-address.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';
import { ROLES, standingOf } from './account-words.js';
import { InviteForm, type NewLink } from './invite-form.js';

/** Who may sign in here: invited by a link, and let go. */
export function AccountsSection() {
  const read = useRead(ACCOUNTS, {});
  const [inviting, setInviting] = useState(false);
  const [link, setLink] = useState<NewLink | null>(null);
  return (
    <Section
      title="Who may sign in"
      actions={<Button onClick={() => setInviting(true)}>Invite somebody</Button>}
    >
      <p className="lw-words">
        Whoever you invite gets a link that works once. A partner sees only the lines you share with
        them; somebody of your household sees and keeps all records of yours; a keeper has lines of
        their own here, which neither you nor anybody else sees unless they say so. Nobody learns of
        other people. A backup holds everybody’s records, a keeper’s too, and whoever runs this
        machine can read its disk.
      </p>
      {link !== null && <LinkShown link={link} />}
      <Shown read={read} what="the accounts">
        {({ accounts }) => <Accounts accounts={accounts} onLink={setLink} />}
      </Shown>
      <Sheet title="Invite somebody" opened={inviting} onClose={() => setInviting(false)}>
        <InviteForm
          onInvited={(made) => {
            setInviting(false);
            setLink(made);
          }}
          onCancel={() => setInviting(false)}
        />
      </Sheet>
    </Section>
  );
}

function LinkShown({ link }: { link: NewLink }) {
  return (
    <SecretAddress
      address={`${window.location.origin}${link.path}`}
      elsewhere="nobody else can open it. Open Linewright by the address others reach it under, and make the link there."
    >
      The link for {link.name}, shown this once. Send it to them by a way that only they read; it
      works once, until {showTime(link.expiresAt)}.
    </SecretAddress>
  );
}

function Accounts({
  accounts,
  onLink,
}: {
  accounts: readonly Account[];
  onLink: (link: NewLink | null) => void;
}) {
  const renewing = useSave(RENEW_INVITATION);
  const [leaving, setLeaving] = useState<Account | null>(null);
  const renew = async ({ person }: Account) => {
    onLink(null);
    const saved = await renewing.save({ personId: person.id });
    if (saved !== null) onLink({ name: person.name, ...saved.renewInvitation });
  };
  return (
    <>
      <DataTable
        caption="Who may sign in"
        rows={accounts}
        rowKey={({ person }) => person.id}
        columns={[
          { key: 'name', title: 'Name', cell: ({ person }) => person.name },
          { key: 'role', title: 'As', cell: ({ role }) => ROLES[role] },
          { key: 'standing', title: 'Now', cell: standingOf },
          {
            key: 'do',
            title: <span className="lw-heard">What to do</span>,
            cell: (account) =>
              account.role !== 'OWNER' && (
                <span className="lw-form-buttons">
                  <Button
                    size="xs"
                    loading={renewing.saving}
                    aria-label={`New link for ${account.person.name}`}
                    onClick={() => void renew(account)}
                  >
                    New link
                  </Button>
                  <Button
                    size="xs"
                    aria-label={`End the account of ${account.person.name}`}
                    onClick={() => setLeaving(account)}
                  >
                    End
                  </Button>
                </span>
              ),
          },
        ]}
      />
      <ProblemNotice problem={renewing.problem} />
      <EndAccount account={leaving} onClose={() => setLeaving(null)} />
    </>
  );
}

function EndAccount({ account, onClose }: { account: Account | null; onClose: () => void }) {
  const { save, saving, problem } = useSave(END_ACCOUNT);
  const name = account?.person.name ?? '';
  return (
    <Sheet title={`End the account of ${name}`} opened={account !== null} onClose={onClose}>
      <p>
        {name} is signed out everywhere and cannot sign in again; what you shared with them is
        withdrawn. Their name stays beside what they recorded. What they saw or wrote down before
        stays with them.
      </p>
      <ProblemNotice problem={problem} />
      <div className="lw-form-buttons">
        <Button
          className="lw-danger"
          variant="filled"
          loading={saving}
          onClick={async () => {
            if (account !== null && (await save({ personId: account.person.id })) !== null)
              onClose();
          }}
        >
          End the account
        </Button>
        <Button onClick={onClose}>Cancel</Button>
      </div>
    </Sheet>
  );
}
