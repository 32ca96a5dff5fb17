import { Link } from 'react-router';
import { type HandOver, HAND_OVERS } from '../../api/hand-overs.js';
import { useRead } from '../../api/use-read.js';
import { MorePages } from '../../components/more-pages.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { FishClaims } from '../../panels/hand-over/fish-claims.js';
import { HandOverCard } from '../../panels/hand-over/hand-over-card.js';
import { offeredTogether } from '../../wording/hand-over-words.js';

/** What was offered, lent and handed over, by and to whoever looks. */
export function HandOversScreen() {
  return (
    <Screen
      title="Hand-overs"
      lead="Fish offered, given, sold and lent: nothing moves before both sides have agreed."
    >
      <FishClaims open={false} />
      <HandOversPage />
    </Screen>
  );
}

interface PageProps {
  after?: string | null;
  before?: number;
}

function HandOversPage({ after = null, before = 0 }: PageProps) {
  const read = useRead(HAND_OVERS, { after });
  return (
    <Shown read={read} what="the hand-overs">
      {({ handOvers }) => {
        if (handOvers.totalCount === 0) return <NoHandOvers />;
        const listed = before + handOvers.edges.length;
        return (
          <>
            <Groups handOvers={handOvers.edges.map(({ node }) => node)} />
            <MorePages
              page={handOvers}
              listed={listed}
              what="hand-overs"
              next={(cursor) => <HandOversPage after={cursor} before={listed} />}
            />
          </>
        );
      }}
    </Shown>
  );
}

function NoHandOvers() {
  return (
    <Empty action={<Link to="/fish">To the fish</Link>}>
      Nothing yet. Open the page of a fish and press “Hand over”; what others offer you stands here
      and under Today.
    </Empty>
  );
}

const isLoan = ({ kind, state }: HandOver): boolean =>
  kind === 'LOAN' && (state === 'MOVED' || state === 'RETURNING');

const sections: readonly { title: string; of: (one: HandOver) => boolean }[] = [
  { title: 'To answer', of: ({ state, side }) => state === 'OFFERED' && side === 'RECEIVER' },
  {
    title: 'Waiting for the other side',
    of: ({ state, side }) => state === 'AGREED' || (state === 'OFFERED' && side !== 'RECEIVER'),
  },
  { title: 'On loan', of: isLoan },
  {
    title: 'Handed over',
    of: (one) => (one.state === 'MOVED' && !isLoan(one)) || one.state === 'ENDED',
  },
  {
    title: 'Came to nothing',
    of: ({ state }) => state === 'DECLINED' || state === 'TAKEN_BACK',
  },
];

function Groups({ handOvers }: { handOvers: readonly HandOver[] }) {
  return (
    <>
      {sections.map(({ title, of }) => {
        const groups = offeredTogether(handOvers.filter(of));
        return (
          groups.length > 0 && (
            <Section key={title} title={title} aside={groups.length}>
              {groups.map(
                ([first, ...rest]) =>
                  first && <HandOverCard key={first.id} handOvers={[first, ...rest]} />,
              )}
            </Section>
          )
        );
      })}
    </>
  );
}
