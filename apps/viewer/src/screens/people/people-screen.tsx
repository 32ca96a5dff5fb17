import { ACCOUNTS, PEOPLE } from '../../api/people.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { ClubRequests } from '../../panels/club-requests.js';
import { MayChangeContext } from '../../session/may.js';
import { useSession } from '../../session/session-context.js';
import { AccountsSection } from './accounts-section.js';
import { OwnDataSection } from './own-data-section.js';
import { PasswordSection } from './password-section.js';
import { SessionsSection } from './sessions-section.js';
import { WaysInSections } from './ways-in-sections.js';

export function PeopleScreen() {
  const { role, person, looking } = useSession();
  const partner = role === 'PARTNER';
  return (
    <Screen
      title="People"
      lead={
        partner
          ? `You are signed in as ${person?.name ?? ''}.`
          : 'Whose records are here, and who may see them.'
      }
    >
      {role === 'OWNER' && <AccountsSection />}
      {role === 'KEEPER' && (
        <p className="lw-words">
          Nobody else here sees your lines unless you show or share them. A backup of this server
          holds them too, and whoever runs the machine can read its disk.
        </p>
      )}
      {!partner && <OnRecordSection />}
      <ClubRequests title="Asked in the club" openAlone />
      <MayChangeContext value={!looking}>
        <SessionsSection />
        <PasswordSection />
        <WaysInSections />
        <OwnDataSection />
      </MayChangeContext>
    </Screen>
  );
}

/** Everybody whose name a record may bear; the owner, who has those with an account above, reads of the others alone. */
function OnRecordSection() {
  const { role, person } = useSession();
  const read = useRead(PEOPLE, {});
  const accounts = useRead(ACCOUNTS, {}, { pause: role !== 'OWNER' }).data?.accounts ?? [];
  const signsIn = (id: string): boolean => accounts.some((account) => account.person.id === id);
  return (
    <Section title="On record">
      <Shown read={read} what="the people">
        {({ people }) => (
          <DataTable
            caption="People on record"
            rows={people.filter(({ id, here }) => here || !signsIn(id))}
            rowKey={(person) => person.id}
            columns={[
              { key: 'name', title: 'Name', cell: (person) => person.name },
              {
                key: 'here',
                title: 'Their records',
                cell: ({ id, here }) => {
                  if (here) return 'these: the owner';
                  if (role === 'OWNER') return 'elsewhere, or came in with a shared line';
                  return id === person?.id ? 'you' : 'somebody else on record';
                },
              },
            ]}
          />
        )}
      </Shown>
    </Section>
  );
}
