import type { Proposal } from '../../api/rounds.js';
import { given } from '../../components/field-rules.js';

/** What stays of a proposal that is being adopted, whatever is proposed then. */
export type Adopting = Pick<
  Proposal,
  'pairs' | 'purposeVersion' | 'kinshipLimit' | 'standing' | 'day'
>;

interface Typed {
  readonly plannedOn: string;
  readonly note: string | null;
  readonly confirmed: boolean;
}

/** What is sent to plan all its pairs as one round. */
export const adoptionOf = (
  lineId: string,
  { pairs, purposeVersion, kinshipLimit }: Omit<Adopting, 'standing' | 'day'>,
  { plannedOn, confirmed, note }: Typed,
) => ({
  ...{ lineId, plannedOn, confirmed, expectedPurposeVersion: purposeVersion },
  ...(kinshipLimit !== null && { kinshipLimit }),
  pairs: pairs.map(({ sire, dam }) => ({ sireId: sire.id, damId: dam.id })),
  ...given({ note }),
});
