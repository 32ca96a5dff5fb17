import { Button } from '@mantine/core';
import type { FishActPreview } from '../../api/fish-acts.js';
import { DataTable } from '../../components/data-table.js';
import { changeWords, type RecordNames } from '../../panels/change-words.js';
import { useRecordNames } from '../../panels/use-record-names.js';
import { plural } from '../../wording/figures.js';

interface ActPreviewProps {
  preview: FishActPreview;
  onLeaveOut: (ids: readonly string[]) => void;
}

/** What an act would change of each fish; first of all, which fish stand in its way and why. */
export function ActPreview({ preview: { fish, inTheWay }, onLeaveOut }: ActPreviewProps) {
  const names = useRecordNames();
  const changing = fish.filter(({ changes }) => changes.length > 0);
  const same = fish.filter(({ changes }) => changes.length === 0);
  return (
    <>
      {inTheWay.length > 0 && <InTheWay fish={inTheWay} onLeaveOut={onLeaveOut} />}
      {changing.length > 0 && (
        <DataTable
          caption="What changes"
          low
          rows={changing}
          rowKey={({ id }) => id}
          columns={[
            { key: 'tag', title: 'Fish', unbroken: true, cell: ({ tag }) => tag },
            {
              key: 'changes',
              title: `What changes (${plural(changing.length, 'fish', 'fish')})`,
              cell: ({ changes }) => inWords(changes, names),
            },
          ]}
        />
      )}
      {same.length > 0 && (
        <p>
          {plural(same.length, 'fish is', 'fish are')} so already and{' '}
          {same.length === 1 ? 'does' : 'do'} not change: {same.map(({ tag }) => tag).join(', ')}.
        </p>
      )}
    </>
  );
}

const inWords = (changes: Parameters<typeof changeWords>[0][], names: RecordNames): string =>
  changes.map((change) => changeWords(change, names)).join('; ');

interface InTheWayProps {
  fish: FishActPreview['inTheWay'];
  onLeaveOut: ActPreviewProps['onLeaveOut'];
}

function InTheWay({ fish, onLeaveOut }: InTheWayProps) {
  return (
    <div className="lw-notice lw-notice-problem" role="alert">
      <p>
        <strong>
          <span aria-hidden="true">! </span>
          {plural(fish.length, 'fish stands', 'fish stand')} in the way.
        </strong>{' '}
        All chosen fish change together or none does. Correct what is said below, or leave{' '}
        {fish.length === 1 ? 'it' : 'them'} out.
      </p>
      <DataTable
        caption="Fish that stand in the way"
        low
        rows={fish}
        rowKey={({ id }) => id}
        columns={[
          { key: 'tag', title: 'Fish', unbroken: true, cell: ({ tag }) => tag },
          { key: 'why', title: 'Why', cell: ({ why }) => why },
        ]}
      />
      <Button onClick={() => onLeaveOut(fish.map(({ id }) => id))}>
        Leave {fish.length === 1 ? 'it' : `these ${fish.length}`} out of the choice
      </Button>
    </div>
  );
}
