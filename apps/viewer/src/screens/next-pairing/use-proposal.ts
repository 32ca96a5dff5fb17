import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { PAIR_PROPOSAL, type Proposal } from '../../api/rounds.js';
import { type Read, useRead } from '../../api/use-read.js';
import { proposalInput, withWish, type Wish } from './proposal-wishes.js';

export interface ProposalAsked {
  readonly read: Read<{ pairProposal: Proposal }>;
  readonly wishes: readonly Wish[];
  /** Says a wish; said again, it is taken back. */
  readonly wish: (said: Wish) => void;
  /** Mean kinship that the pairs keep to; null for that of the line's purpose. */
  readonly limit: number | null;
  readonly setLimit: (limit: number | null) => void;
}

/** The pairs to make now for a line, with what is wished of them; asked for once wishing has paused. */
export function useProposal(lineId: string): ProposalAsked {
  const [wishes, setWishes] = useState<readonly Wish[]>([]);
  const [limit, setLimit] = useState<number | null>(null);
  const [asked] = useDebouncedValue(JSON.stringify(proposalInput(lineId, wishes, limit)), 300);
  const input = JSON.parse(asked) as ReturnType<typeof proposalInput>;
  const read = useRead(PAIR_PROPOSAL, { input });
  const wish = (said: Wish) => setWishes((before) => withWish(before, said));
  return { read, wishes, wish, limit, setLimit };
}
