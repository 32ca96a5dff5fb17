import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { END_LINE_GRANT, LINE_GRANTS, type Grant } from '../../api/grants.js';
import { ACCOUNTS, PEOPLE } from '../../api/people.js';
import { lookAs } from '../../api/seen-as.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { useSession } from '../../session/session-context.js';
import { LEVELS, partsSeen } from './grant-words.js';
import { GrantForm } from './grant-form.js';

type Opened = { kind: 'change'; grant: Grant } | { kind: 'end'; grant: Grant } | { kind: 'new' };

/** Which partners see this line on this server, what of it, and how it looks to them. */
export function SharedWithSection({ line }: { line: { id: string; code: string } }) {
  const read = useRead(LINE_GRANTS, { lineId: line.id });
  const [opened, setOpened] = useState<Opened | null>(null);
  const close = () => setOpened(null);
  return (
    <Section
      title="Partners who see it here"
      actions={<Button onClick={() => setOpened({ kind: 'new' })}>Share with a partner</Button>}
    >
      <Shown read={read} what="the partners">
        {({ lineGrants }) =>
          lineGrants.length === 0 ? (
            <Empty>Nobody but you and your household sees this line here.</Empty>
          ) : (
            <Grants lineId={line.id} grants={lineGrants} onOpen={setOpened} />
          )
        }
      </Shown>
      <Sheet
        title={`Share line ${line.code}`}
        opened={opened !== null && opened.kind !== 'end'}
        onClose={close}
      >
        {opened?.kind === 'change' ? (
          <GrantForm lineId={line.id} grant={opened.grant} onDone={close} />
        ) : (
          <NewGrant lineId={line.id} taken={read.data?.lineGrants ?? []} onDone={close} />
        )}
      </Sheet>
      <EndGrant line={line} grant={opened?.kind === 'end' ? opened.grant : null} onClose={close} />
    </Section>
  );
}

function Grants({
  lineId,
  grants,
  onOpen,
}: {
  lineId: string;
  grants: readonly Grant[];
  onOpen: (opened: Opened) => void;
}) {
  const owner = useSession().role === 'OWNER';
  const accounts = useRead(ACCOUNTS, {}, { pause: !owner }).data?.accounts ?? [];
  // A keeper sees lines of their own as well, which are nobody else's to look at.
  const seenAs = (id: string): boolean =>
    accounts.some(({ person, role }) => person.id === id && role === 'PARTNER');
  return (
    <DataTable
      caption="Partners who see this line"
      rows={grants}
      rowKey={({ person }) => person.id}
      columns={[
        { key: 'name', title: 'Partner', cell: ({ person }) => person.name },
        { key: 'level', title: 'May', cell: ({ level }) => LEVELS[level] },
        { key: 'parts', title: 'Sees also', cell: partsSeen },
        {
          key: 'do',
          title: <span className="lw-heard">What to do</span>,
          cell: (grant) => (
            <span className="lw-form-buttons">
              {seenAs(grant.person.id) && (
                <Button
                  size="xs"
                  onClick={() => lookAs(grant.person.id, `/lines/${lineId}`)}
                  aria-label={`See what ${grant.person.name} sees`}
                >
                  See it as they do
                </Button>
              )}
              <Button
                size="xs"
                aria-label={`Change what ${grant.person.name} sees`}
                onClick={() => onOpen({ kind: 'change', grant })}
              >
                Change
              </Button>
              <Button
                size="xs"
                aria-label={`Take the line back from ${grant.person.name}`}
                onClick={() => onOpen({ kind: 'end', grant })}
              >
                Take back
              </Button>
            </span>
          ),
        },
      ]}
    />
  );
}

/** Partners with an account here who do not see the line yet. */
function NewGrant({ lineId, taken, onDone }: NewGrantProps) {
  const keeps = useSession().role === 'KEEPER';
  return keeps ? (
    <OfKnownPeople {...{ lineId, taken, onDone }} />
  ) : (
    <OfAccounts {...{ lineId, taken, onDone }} />
  );
}

interface NewGrantProps {
  lineId: string;
  taken: readonly Grant[];
  onDone: () => void;
}

/** A keeper knows whoever showed a line to the club, or asked for something. */
function OfKnownPeople({ lineId, taken, onDone }: NewGrantProps) {
  const read = useRead(PEOPLE, {});
  const own = useSession().person?.id;
  return (
    <Shown read={read} what="the people">
      {({ people }) => {
        const free = people
          .filter(({ id, here }) => id !== own && !here)
          .filter(({ id }) => !taken.some(({ person }) => person.id === id));
        if (free.length > 0) return <GrantForm lineId={lineId} partners={free} onDone={onDone} />;
        return (
          <Empty>
            You know nobody else here yet: whoever shows a line to the club or asks you for a fish
            is listed here.
          </Empty>
        );
      }}
    </Shown>
  );
}

function OfAccounts({ lineId, taken, onDone }: NewGrantProps) {
  const read = useRead(ACCOUNTS, {});
  return (
    <Shown read={read} what="the partners">
      {({ accounts }) => {
        const free = accounts
          .filter(({ role }) => role === 'PARTNER' || role === 'KEEPER')
          .map(({ person }) => person)
          .filter(({ id }) => !taken.some(({ person }) => person.id === id));
        if (free.length > 0) return <GrantForm lineId={lineId} partners={free} onDone={onDone} />;
        return (
          <Empty action={<Link to="/people">Go to People</Link>}>
            {taken.length === 0
              ? 'No partner has an account here yet: invite one first.'
              : 'Every partner with an account here sees this line already.'}
          </Empty>
        );
      }}
    </Shown>
  );
}

function EndGrant({
  line,
  grant,
  onClose,
}: {
  line: { id: string; code: string };
  grant: Grant | null;
  onClose: () => void;
}) {
  const { save, saving, problem } = useSave(END_LINE_GRANT);
  const name = grant?.person.name ?? '';
  return (
    <Sheet title={`Take line ${line.code} back`} opened={grant !== null} onClose={onClose}>
      <p>
        {name} sees nothing of this line any more, from now on. What they saw, wrote down or kept as
        a file before stays with them; scores they gave stay in your records.
      </p>
      <ProblemNotice problem={problem} />
      <div className="lw-form-buttons">
        <Button
          variant="filled"
          className="lw-danger"
          loading={saving}
          onClick={async () => {
            const of = { personId: grant?.person.id ?? '', lineId: line.id };
            if ((await save(of)) !== null) onClose();
          }}
        >
          Take it back
        </Button>
        <Button onClick={onClose}>Cancel</Button>
      </div>
    </Sheet>
  );
}
