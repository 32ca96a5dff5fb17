import { Link } from 'react-router';
import { HAND_OVERS } from '../../api/hand-overs.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { HandOverCard } from '../../panels/hand-over/hand-over-card.js';
import { offeredTogether } from '../../wording/hand-over-words.js';

/** Offers, loans and hand-overs of one fish, the latest first; nothing of one that never was on its way. */
export function FishHandOversSection({ fishId }: { fishId: string }) {
  const read = useRead(HAND_OVERS, { after: null, fishId });
  const found = read.data?.handOvers;
  if (found === undefined || found.totalCount === 0) return null;
  return (
    <Section
      title="From hand to hand"
      aside={found.totalCount}
      act
      actions={<Link to="/hand-overs">All hand-overs</Link>}
    >
      {offeredTogether(found.edges.map(({ node }) => node)).map(
        ([first, ...rest]) => first && <HandOverCard key={first.id} handOvers={[first, ...rest]} />,
      )}
    </Section>
  );
}
