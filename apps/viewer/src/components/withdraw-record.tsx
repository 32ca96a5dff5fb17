import type { TypedDocumentNode } from 'urql';
import type { WITHDRAW_FISH } from '../api/fish.js';
import type { VariablesOf } from '../api/graphql.js';
import { useSave } from '../api/use-save.js';
import { dayOf } from '../wording/figures.js';
import { WithdrawSheet } from './withdraw-form.js';

interface WithdrawRecordProps<Data> {
  /** Every kind of record is withdrawn with the same input. */
  mutation: TypedDocumentNode<Data, VariablesOf<typeof WITHDRAW_FISH>>;
  record: { readonly id: string; readonly revision?: number };
  title: string;
  /** What is withdrawn: "fish T24-07-12". */
  what: string;
  /** The verb of the button; "Withdraw" unless given. */
  verb?: string;
  opened?: boolean;
  onClose: () => void;
  /** Closes the sheet unless given. */
  onWithdrawn?: () => void;
}

/** Withdraws one record at the revision that is shown, with a reason. */
export function WithdrawRecord<Data>({
  mutation,
  record: { id, revision },
  opened = true,
  onWithdrawn,
  ...sheet
}: WithdrawRecordProps<Data>) {
  const { save, saving, problem } = useSave(mutation);
  return (
    <WithdrawSheet
      {...sheet}
      opened={opened}
      saving={saving}
      problem={problem}
      onSubmit={async (reason) => {
        const input = { id, reason, ...(revision === undefined ? {} : { revision }) };
        if ((await save({ input })) !== null) (onWithdrawn ?? sheet.onClose)();
      }}
    />
  );
}

interface WithdrawnNoticeProps {
  /** `null`: the record stands, and nothing is said. */
  withdrawn: { readonly at: string; readonly reason: string } | null;
}

/** Says at the top of a record that it was withdrawn, and why. */
export function WithdrawnNotice({ withdrawn }: WithdrawnNoticeProps) {
  if (withdrawn === null) return null;
  return (
    <div className="lw-notice lw-notice-caution" role="note">
      Withdrawn on {dayOf(withdrawn.at)}: {withdrawn.reason}
    </div>
  );
}
