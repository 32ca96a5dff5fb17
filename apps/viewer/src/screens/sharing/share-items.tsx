import { clsx } from 'clsx';
import styles from './share-items.module.css';
import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import type { ShareReport } from '../../api/sharing.js';
import { DataTable } from '../../components/data-table.js';
import { fieldWord, outcomeWord, recordWord, type ShareOutcome } from '../../wording/words.js';
import type { Column } from '../../components/data-table.js';

const SHOWN = 300;
const order: ShareOutcome[] = ['CONFLICT', 'UPDATED', 'ADDED', 'KEPT_LOCAL', 'UNCHANGED'];

/** What the API calls that which a record is left out with. */
const RESTS_ON = 'restsOn';

type Item = ShareReport['items'][number];

function conflictWord({ changes }: Item): string {
  if (changes.some(({ field }) => field === RESTS_ON)) return 'not taken in';
  if (changes.some(({ field }) => field === 'id')) return 'another record here has the same name';
  return outcomeWord.CONFLICT;
}

/** Record by record what the file brings; conflicts first. */
export function ShareItems({ report }: { report: ShareReport }) {
  const [outcome, setOutcome] = useState<ShareOutcome | ''>('');
  const items = report.items
    .filter((item) => (outcome === '' ? item.outcome !== 'UNCHANGED' : item.outcome === outcome))
    .sort((a, b) => order.indexOf(a.outcome) - order.indexOf(b.outcome));
  const present = order.filter((each) => report.items.some((item) => item.outcome === each));
  return (
    <>
      <div className={clsx('lw-filter', styles['filter'])}>
        <NativeSelect
          className="lw-filter-text"
          label="Show records"
          value={outcome}
          onChange={(event) => setOutcome(event.currentTarget.value as ShareOutcome | '')}
          data={[
            { value: '', label: 'that change anything' },
            ...present.map((each) => ({ value: each, label: outcomeWord[each] })),
          ]}
        />
      </div>
      {items.length === 0 ? (
        <p className="lw-quiet">No such record.</p>
      ) : (
        <DataTable
          caption="Records in the file"
          rows={items.slice(0, SHOWN)}
          rowKey={(item) => `${item.recordKind} ${item.recordId} ${item.outcome}`}
          columns={itemColumns()}
        />
      )}
      {items.length > SHOWN && (
        <p className="lw-quiet">
          The first {SHOWN} of {items.length} records are listed.
        </p>
      )}
    </>
  );
}

function itemColumns(): readonly Column<Item>[] {
  return [
    {
      key: 'what',
      title: 'Record',
      cell: (item) => `${recordWord[item.recordKind]} ${item.label}`,
    },
    {
      key: 'outcome',
      title: 'Outcome',
      cell: (item) =>
        item.outcome === 'CONFLICT' ? (
          <strong>{conflictWord(item)}</strong>
        ) : (
          outcomeWord[item.outcome]
        ),
    },
    {
      key: 'changes',
      title: 'Here → in the file',
      cell: (item) =>
        item.outcome === 'ADDED'
          ? ''
          : item.changes.map((change) => (
              <div key={change.field} className={styles['change']}>
                {change.field === RESTS_ON
                  ? `it depends on the ${change.after ?? ''}, which is not taken in`
                  : `${fieldWord(change.field)}: ${change.before ?? 'blank'} → ${change.after ?? 'blank'}`}
              </div>
            )),
    },
  ];
}
