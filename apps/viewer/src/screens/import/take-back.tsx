import { Button } from '@mantine/core';
import { TAKE_BACK, TAKE_BACK_PREVIEW, type TakeBackPreview } from '../../api/past-imports.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { Sheet } from '../../components/sheet.js';
import { Loading, Shown } from '../../components/states.js';
import { WithdrawForm } from '../../components/withdraw-form.js';
import { plural } from '../../wording/figures.js';
import { capital, recordWord } from '../../wording/words.js';

interface TakeBackProps {
  id: string;
  /** The file, when it was imported and what it made. */
  what: string;
  onCancel: () => void;
  onDone: () => void;
}

/** What depends on an import by now; and when nothing does, the reason and the confirmation. */
export function TakeBack({ id, what, onCancel, onDone }: TakeBackProps) {
  const read = useRead(TAKE_BACK_PREVIEW, { id });
  const { save, saving, problem } = useSave(TAKE_BACK);
  // Opened with its content there, so that the reason has the focus and not the cross.
  if (read.loading) return <Loading what="what depends on this import" />;
  return (
    <Sheet title="Take an import back" opened onClose={onCancel}>
      <Shown read={read} what="what depends on this import">
        {({ takeBackPreview: preview }) =>
          preview.ready ? (
            <>
              <Changed preview={preview} />
              <WithdrawForm
                what={what}
                verb="Take back"
                saving={saving}
                problem={problem}
                onCancel={onCancel}
                onSubmit={async (reason) => {
                  if ((await save({ id, reason })) !== null) onDone();
                  else read.reload();
                }}
              />
            </>
          ) : (
            <Resting preview={preview} onCancel={onCancel} />
          )
        }
      </Shown>
    </Sheet>
  );
}

function Changed({ preview: { changed, changedNames } }: { preview: TakeBackPreview }) {
  if (changed === 0) return null;
  return (
    <p>
      {plural(changed, 'record of it was', 'records of it were')} changed since the import:{' '}
      <strong>{changedNames.join(', ')}</strong>
      {changedNames.length < changed && ` and ${changed - changedNames.length} others`}. These
      changes are taken back too.
    </p>
  );
}

function Resting({ preview, onCancel }: { preview: TakeBackPreview; onCancel: () => void }) {
  return (
    <>
      <p>
        <strong>This import cannot be taken back yet.</strong> The records below were made later and
        depend on it. Withdraw them first; drop a pairing; take a later import back. Nothing was
        changed.
      </p>
      <DataTable
        caption="Later records that depend on the import"
        rows={preview.resting}
        rowKey={({ kind }) => kind}
        columns={[
          { key: 'kind', title: 'Record', cell: ({ kind }) => capital(recordWord[kind]) },
          { key: 'count', title: 'Number', number: true, cell: ({ count }) => count },
          {
            key: 'names',
            title: 'Where to find them',
            cell: ({ names }) => `${names.join(', ')}${names.length === NAMED ? ' …' : ''}`,
          },
        ]}
      />
      <div className="lw-form-buttons">
        <Button onClick={onCancel}>Close</Button>
      </div>
    </>
  );
}

/** More names than this are not told. */
const NAMED = 12;
