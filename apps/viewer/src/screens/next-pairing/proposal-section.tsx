import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { Proposal } from '../../api/rounds.js';
import { Caution } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { useMayChange } from '../../session/may.js';
import { percent, plainNumber, plural, today } from '../../wording/figures.js';
import { roundFryWords } from '../../wording/passing-words.js';
import { worthOf } from '../../wording/worth-words.js';
import { AdoptSheet } from './adopt-sheet.js';
import { ProposalFrontier } from './proposal-frontier.js';
import { ProposedPairs } from './proposed-pairs.js';
import { wishAbout, wishWords, type Wish } from './proposal-wishes.js';
import { daysWords, makeWords, priceWords } from './proposal-words.js';
import { StandingRound } from './standing-round.js';
import { type ProposalAsked, useProposal } from './use-proposal.js';
import { WishForm } from './wish-form.js';
import styles from './proposal.module.css';

/** The pairs to make now for one line, what they rest on, and what can be changed about them. */
export function ProposalSection({ lineId }: { lineId: string }) {
  const asked = useProposal(lineId);
  const { read, wishes, wish } = asked;
  return (
    <Section
      title="Pairs to make now"
      aside={read.refreshing && read.data !== undefined && 'working it out again…'}
    >
      <Shown read={read} what="the pairs to make now">
        {({ pairProposal: proposal }) => (
          <>
            <Basis lineId={lineId} proposal={proposal} />
            {proposal.standing !== null && (
              <StandingRound standing={proposal.standing} left={proposal.broods} />
            )}
            <NoPairsYet proposal={proposal} onDone={read.reload} />
            {wishes.length > 0 && (
              <Wishes wishes={wishes} price={priceWords(proposal)} onTakeBack={wish} />
            )}
            <PairsToMake lineId={lineId} proposal={proposal} asked={asked} />
          </>
        )}
      </Shown>
      {read.data === undefined && wishes.length > 0 && (
        <Wishes wishes={wishes} price="" onTakeBack={wish} />
      )}
    </Section>
  );
}

function NoPairsYet({ proposal, onDone }: { proposal: Proposal; onDone: () => void }) {
  const { waiting, problem } = proposal;
  if (waiting === null) return problem !== null && <Empty>{problem}</Empty>;
  return (
    <WaitingComputation
      key={waiting.id}
      computation={waiting}
      what="what the fish pass on"
      doing="Working out"
      whileGoing="The pairs come when it is done."
      onDone={onDone}
    />
  );
}

interface PairsToMakeProps {
  lineId: string;
  proposal: Proposal;
  asked: ProposalAsked;
}

function PairsToMake({ lineId, proposal, asked }: PairsToMakeProps) {
  const { wishes, wish, limit, setLimit } = asked;
  const [adopting, setAdopting] = useState(false);
  // A round is kept with its line, so whoever only breeds with the line plans pair by pair.
  const mayChange = useMayChange();
  const { pairs, hasAims, frontier } = proposal;
  return (
    <>
      {pairs.length > 0 && (
        <>
          <Together proposal={proposal} />
          <ProposedPairs proposal={proposal} wishes={wishes} onWish={wish} />
          {mayChange && (
            <p>
              <Button variant="filled" onClick={() => setAdopting(true)}>
                {makeWords(proposal)}
              </Button>
            </p>
          )}
          <WishForm
            lineId={lineId}
            onWish={(said) => {
              if (wishAbout(wishes, said.fish)?.must !== true) wish(said);
            }}
          />
          {hasAims && frontier.length > 1 && (
            <ProposalFrontier proposal={proposal} limit={limit} onLimit={setLimit} />
          )}
        </>
      )}
      {adopting && (
        <AdoptSheet lineId={lineId} proposal={proposal} onClose={() => setAdopting(false)} />
      )}
    </>
  );
}

interface BasisProps {
  lineId: string;
  proposal: Proposal;
}

function Basis({ lineId, proposal }: BasisProps) {
  const mayChange = useMayChange();
  const { hasAims, purposeVersion, maleCount, femaleCount, broodsPerFish, ceiling } = proposal;
  const link = <Link to={`/lines/${lineId}/purpose`}>what this line is for</Link>;
  return (
    <p className="lw-words">
      {hasAims ? (
        <>
          By version {purposeVersion} of {link}.{' '}
        </>
      ) : mayChange ? (
        <>
          Nothing is said yet of what this line is bred for, so these pairs are chosen by kinship
          alone: {link}.{' '}
        </>
      ) : (
        <>
          What this line is bred for is not shared with you, so these pairs are chosen by kinship
          alone.{' '}
        </>
      )}
      <span className="lw-quiet">
        {plural(maleCount, 'male')} and {plural(femaleCount, 'female')} here; at most{' '}
        {plural(broodsPerFish, 'brood')} a fish, and an F of {percent(ceiling, 1)}. Fish that rest
        or are too young{proposal.day > today() ? ' then' : ''} are in no pair.{' '}
        {daysWords(proposal)}
      </span>
    </p>
  );
}

function Together({ proposal }: { proposal: Proposal }) {
  const { hasAims, worth, worthBound } = proposal;
  return (
    <>
      <LimitsNotKept proposal={proposal} />
      <TogetherFigures proposal={proposal} />
      <p className="lw-words">
        {roundFryWords(
          proposal.pairs.map(({ passing }) => passing),
          proposal.fry,
          proposal.standing?.passing,
        )}
      </p>
      {hasAims && worthBound - worth > 0.005 && (
        <p className="lw-quiet">
          Better pairs were looked for until time was up: no choice can be worth more than{' '}
          {plainNumber(worthBound)} points.
        </p>
      )}
    </>
  );
}

function LimitsNotKept({ proposal }: { proposal: Proposal }) {
  const { broods, ceiling, raisedCeiling, unreachableLimit } = proposal;
  return (
    <>
      {raisedCeiling !== null && (
        <Caution>
          {plural(broods, 'brood')} with an F of at most {percent(ceiling, 1)} cannot be made of the
          fish here. These keep to {percent(raisedCeiling, 1)}, the lowest F with which they can.
          Fewer broods, or a partner from outside of the line, would be less inbred.
        </Caution>
      )}
      {unreachableLimit !== null && (
        <p className="lw-words" role="note">
          So few broods cannot keep the mean kinship at {percent(unreachableLimit)}: these are about
          the least related pairs there are. More broods from more fish would be less related.
        </p>
      )}
    </>
  );
}

function TogetherFigures({ proposal }: { proposal: Proposal }) {
  const { hasAims, kinship, presentKinship, inbreeding, worth, standardError } = proposal;
  return (
    <dl className={styles['together']}>
      {hasAims && (
        <Figure name="Worth, mean of the pairs" value={`${worthOf(worth, standardError)} points`} />
      )}
      <Figure
        name="Kinship of the parents"
        value={`${percent(kinship)} (all fish here: ${percent(presentKinship)})`}
      />
      <Figure name="F of the broods, mean" value={percent(inbreeding)} />
    </dl>
  );
}

function Figure({ name, value }: { name: string; value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}

interface WishesProps {
  wishes: readonly Wish[];
  price: string;
  onTakeBack: (wish: Wish) => void;
}

/** What the keeper asked for, and what it costs. */
function Wishes({ wishes, price, onTakeBack }: WishesProps) {
  return (
    <div className={styles['wishes']}>
      <h3>What you asked for</h3>
      <ul>
        {wishes.map((wish) => (
          <li key={wishWords(wish)}>
            {wishWords(wish)}.{' '}
            <Button
              size="compact-sm"
              aria-label={`Take back: ${wishWords(wish)}`}
              onClick={() => onTakeBack(wish)}
            >
              Take back
            </Button>
          </li>
        ))}
      </ul>
      <p role="status">{price}</p>
    </div>
  );
}
