import { Button } from '@mantine/core';
import { Link } from 'react-router';
import type { Proposal, ProposedPair } from '../../api/rounds.js';
import { percent } from '../../wording/figures.js';
import { broodFryWords } from '../../wording/passing-words.js';
import { worthOf } from '../../wording/worth-words.js';
import { wishAbout, type Wish } from './proposal-wishes.js';
import { needWords, withoutWords } from './proposal-words.js';
import styles from './proposal.module.css';

interface ProposedPairsProps {
  proposal: Proposal;
  wishes: readonly Wish[];
  onWish: (wish: Wish) => void;
}

/** The pairs of a proposal: what each is there for, and what it can be overruled by. */
export function ProposedPairs({ proposal, wishes, onWish }: ProposedPairsProps) {
  return (
    <ol className={styles['pairs']}>
      {proposal.pairs.map((pair) => (
        <li key={`${pair.sire.id} ${pair.dam.id}`}>
          <ProposedPairItem pair={pair} proposal={proposal} wishes={wishes} onWish={onWish} />
        </li>
      ))}
    </ol>
  );
}

function ProposedPairItem({
  pair,
  proposal: { hasAims, possibleCount },
  wishes,
  onWish,
}: ProposedPairsProps & { pair: ProposedPair }) {
  const { sire, dam, worth, standardError, passing, inbreedingCoefficient, without } = pair;
  return (
    <>
      <h3>
        <Link to={`/pair/${sire.id}/${dam.id}`}>
          {sire.tag} by {dam.tag}
        </Link>
      </h3>
      <p className={styles['figures']}>
        {hasAims && <span>worth {worthOf(worth, standardError)} points</span>}
        <span>F {percent(inbreedingCoefficient)}</span>
        <span>{broodFryWords(passing)}</span>
      </p>
      <p>
        {needWords(pair, possibleCount, hasAims)}
        {without !== null && ` ${withoutWords(without, hasAims)}`}
      </p>
      <div className="lw-actions">
        <WishButton wish={{ must: true, fish: [sire, dam] }} {...{ wishes, onWish }}>
          Keep this pair
        </WishButton>
        <WishButton wish={{ must: false, fish: [sire, dam] }} {...{ wishes, onWish }}>
          Not this pair
        </WishButton>
        <WishButton wish={{ must: false, fish: [sire] }} {...{ wishes, onWish }}>
          Not {sire.tag}
        </WishButton>
        <WishButton wish={{ must: false, fish: [dam] }} {...{ wishes, onWish }}>
          Not {dam.tag}
        </WishButton>
      </div>
    </>
  );
}

interface WishButtonProps {
  wish: Wish;
  wishes: readonly Wish[];
  onWish: (wish: Wish) => void;
  children: React.ReactNode;
}

function WishButton({ wish, wishes, onWish, children }: WishButtonProps) {
  const pressed = wishAbout(wishes, wish.fish)?.must === wish.must;
  return (
    <Button
      size="compact-sm"
      variant={pressed ? 'filled' : 'default'}
      aria-pressed={pressed}
      onClick={() => onWish(wish)}
    >
      {children}
    </Button>
  );
}
