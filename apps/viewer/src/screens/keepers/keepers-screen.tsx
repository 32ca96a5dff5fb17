import { KEEPERS } from '../../api/session.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Shown } from '../../components/states.js';
import { PasswordSection } from './password-section.js';

export function KeepersScreen() {
  const read = useRead(KEEPERS, {});
  return (
    <Screen
      title="Keepers"
      lead="Whose records are here: your own, and those of partners whose lines you took in."
    >
      <Shown read={read} what="the keepers">
        {({ keepers }) => (
          <DataTable
            caption="Keepers"
            rows={keepers}
            rowKey={(keeper) => keeper.id}
            columns={[
              { key: 'name', title: 'Name', cell: (keeper) => keeper.name },
              {
                key: 'here',
                title: 'Records kept',
                cell: (keeper) =>
                  keeper.here ? 'here, by you' : 'elsewhere; came in with a shared line',
              },
            ]}
          />
        )}
      </Shown>
      <PasswordSection />
    </Screen>
  );
}
