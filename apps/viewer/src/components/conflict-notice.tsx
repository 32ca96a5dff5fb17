import { Button } from '@mantine/core';
import { useEffect, useRef } from 'react';
import { LEAVE_STANDING, SAVE_ENTERED } from '../wording/conflict-words.js';
import { DataTable } from './data-table.js';

export interface FieldConflict {
  field: string;
  mine: string;
  saved: string;
}

interface ConflictNoticeProps {
  conflicts: readonly FieldConflict[];
  onKeepMine: () => void;
  onTakeSaved: () => void;
}

/** The record changed after the form was opened: both versions, and a choice. */
export function ConflictNotice({ conflicts, onKeepMine, onTakeSaved }: ConflictNoticeProps) {
  const notice = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // Braces: browsers may answer with a promise, which is no clean-up.
    void notice.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <div ref={notice} className="lw-notice lw-notice-problem" role="alert">
      <p>
        <strong>This record was changed after you opened the form.</strong> What you typed is kept.
        Look at both versions, then choose.
      </p>
      {conflicts.length === 0 ? (
        <p>What you typed is the same as what is recorded now.</p>
      ) : (
        <DataTable
          caption="What you typed and what is recorded now"
          rows={conflicts}
          rowKey={(each) => each.field}
          columns={[
            { key: 'field', title: 'Field', cell: (each) => each.field },
            { key: 'mine', title: 'Entered here', cell: (each) => each.mine || 'blank' },
            { key: 'saved', title: 'Recorded now', cell: (each) => each.saved || 'blank' },
          ]}
        />
      )}
      <div className="lw-form-buttons">
        <Button onClick={onKeepMine}>{SAVE_ENTERED}</Button>
        <Button onClick={onTakeSaved}>{LEAVE_STANDING}</Button>
      </div>
    </div>
  );
}
