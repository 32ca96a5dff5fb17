import { Button } from '@mantine/core';
import { useState } from 'react';
import { OWN_DATA, type OwnData } from '../../api/own-data.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { useSession } from '../../session/session-context.js';
import { plural } from '../../wording/figures.js';
import { EraseForm } from './erase-form.js';

const FILE = '/export/own-data.zip';

/** What is recorded of whoever looks: to be taken along, and erased. */
export function OwnDataSection() {
  const { looking } = useSession();
  const read = useRead(OWN_DATA, {});
  const [erasing, setErasing] = useState(false);
  // What is recorded of somebody is shown to them alone.
  if (looking) return null;
  return (
    <Section
      title="Your data"
      actions={<Button onClick={() => setErasing(true)}>Erase my data</Button>}
    >
      <p className="lw-words">
        Everything that is recorded of you can be taken out as one file: a page to read, every table
        as JSON, and photos. Passwords and codes are not in it.
      </p>
      <p>
        <TakeOut />
      </p>
      <Shown read={read} what="what is recorded of you">
        {({ ownData }) => (
          <>
            <Recorded own={ownData} />
            <Sheet title="Erase your data" opened={erasing} onClose={() => setErasing(false)}>
              <EraseForm own={ownData} takeOut={<TakeOut />} onCancel={() => setErasing(false)} />
            </Sheet>
          </>
        )}
      </Shown>
    </Section>
  );
}

function TakeOut() {
  return (
    <a href={FILE} download="own-data.zip">
      Take all of it out
    </a>
  );
}

function Recorded({ own: { tables, photos } }: { own: OwnData }) {
  return (
    <details>
      <summary>
        What it holds: {plural(tables.length, 'kind')} of records, {plural(photos, 'photo')}
      </summary>
      <DataTable
        caption="What is recorded of you"
        rows={tables}
        rowKey={({ title }) => title}
        columns={[
          { key: 'title', title: 'What', cell: ({ title }) => title },
          { key: 'count', title: 'How many', number: true, cell: ({ count }) => String(count) },
        ]}
      />
    </details>
  );
}
