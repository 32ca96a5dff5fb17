import { useState, type ReactNode } from 'react';
import { WITHDRAW_FROM_SPAWN_LOG } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { WithdrawSheet } from '../../components/withdraw-form.js';

export interface LogWithdrawal {
  /** A small button that asks for the reason. */
  button: (recordId: string, what: string) => ReactNode;
  /** The sheet; put it once in the section. */
  sheet: ReactNode;
}

/** Withdrawing one record (event, count, loss, class count) of a spawn. */
export function useLogWithdrawal(spawnId: string): LogWithdrawal {
  const [asked, setAsked] = useState<{ id: string; what: string } | null>(null);
  const { save, saving, problem, clear } = useSave(WITHDRAW_FROM_SPAWN_LOG);
  const close = () => {
    setAsked(null);
    clear();
  };
  return {
    button: (id, what) => (
      <button
        type="button"
        className="lw-small-button"
        aria-label={`Withdraw ${what}`}
        onClick={() => setAsked({ id, what })}
      >
        Withdraw
      </button>
    ),
    sheet: asked !== null && (
      <WithdrawSheet
        title={`Withdraw ${asked.what}`}
        opened
        onClose={close}
        what={asked.what}
        saving={saving}
        problem={problem}
        onSubmit={async (reason) => {
          if ((await save({ input: { spawnId, recordId: asked.id, reason } })) !== null) close();
        }}
      />
    ),
  };
}
