import { PEOPLE } from '../../api/people.js';
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

function OnRecordSection() {
  const read = useRead(PEOPLE, {});
  return (
    <Section title="On record">
      <Shown read={read} what="the people">
        {({ people }) => (
          <DataTable
            caption="People on record"
            rows={people}
            rowKey={(person) => person.id}
            columns={[
              { key: 'name', title: 'Name', cell: (person) => person.name },
              {
                key: 'here',
                title: 'Their records',
                cell: (person) =>
                  person.here ? 'these: the owner' : 'elsewhere, or came in with a shared line',
              },
            ]}
          />
        )}
      </Shown>
    </Section>
  );
}
