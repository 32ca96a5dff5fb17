import { PEOPLE } from '../../api/session.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Shown } from '../../components/states.js';
import { PasswordSection } from './password-section.js';

export function PeopleScreen() {
  const read = useRead(PEOPLE, {});
  return (
    <Screen
      title="People"
      lead="Whose records are here: your own, and those of partners whose lines you took in."
    >
      <Shown read={read} what="the people">
        {({ people }) => (
          <DataTable
            caption="People"
            rows={people}
            rowKey={(person) => person.id}
            columns={[
              { key: 'name', title: 'Name', cell: (person) => person.name },
              {
                key: 'here',
                title: 'Records kept',
                cell: (person) =>
                  person.here ? 'here, by you' : 'elsewhere; came in with a shared line',
              },
            ]}
          />
        )}
      </Shown>
      <PasswordSection />
    </Screen>
  );
}
