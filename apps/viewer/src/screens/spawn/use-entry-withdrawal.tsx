import { useState, type ReactNode } from 'react';
import { WITHDRAW_SPAWN_ENTRY } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { WithdrawSheet } from '../../components/withdraw-form.js';

export interface EntryWithdrawal {
  /** A small button that asks for the reason. */
  button: (entryId: string, what: string) => ReactNode;
  /** The sheet; put it once in the section. */
  sheet: ReactNode;
}

/** Withdrawing one entry (event, count, loss, class count) of a spawn. */
export function useEntryWithdrawal(spawnId: string): EntryWithdrawal {
  const [entry, setEntry] = useState<{ id: string; what: string } | null>(null);
  const { save, saving, problem, clear } = useSave(WITHDRAW_SPAWN_ENTRY);
  const close = () => {
    setEntry(null);
    clear();
  };
  return {
    button: (id, what) => (
      <button
        type="button"
        className="lw-small-button"
        aria-label={`Withdraw ${what}`}
        onClick={() => setEntry({ id, what })}
      >
        Withdraw
      </button>
    ),
    sheet: entry !== null && (
      <WithdrawSheet
        title={`Withdraw ${entry.what}`}
        opened
        onClose={close}
        what={entry.what}
        saving={saving}
        problem={problem}
        onSubmit={async (reason) => {
          if ((await save({ input: { spawnId, entryId: entry.id, reason } })) !== null) close();
        }}
      />
    ),
  };
}
