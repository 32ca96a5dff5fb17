/** What can be done for several fish at once. */
export type ActKind = 'line' | 'decision' | 'withdrawal';

export const actTitle: Record<ActKind, string> = {
  line: 'Move to a line',
  decision: 'Decide',
  withdrawal: 'Withdraw',
};
