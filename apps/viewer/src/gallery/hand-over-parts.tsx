import { type HandOver, LATER_SPAWNS } from '../api/hand-overs.js';
import { FISH_CLAIMS, type FishClaim } from '../api/fish-claims.js';
import { FishClaims } from '../panels/hand-over/fish-claims.js';
import { AcceptForm, QuarantineCaution } from '../panels/hand-over/accept-form.js';
import { HandOverCard } from '../panels/hand-over/hand-over-card.js';
import { LaterSpawns } from '../panels/hand-over/later-spawns.js';
import { LoanReturnForm, PutOffForm } from '../panels/hand-over/loan-forms.js';
import { DeclineForm, TakeBackForm } from '../panels/hand-over/word-form.js';
import { Answering, answers } from './invented-api.js';
import { sire } from './invented-records.js';
import { longWords, nothing } from './invented-words.js';
import type { Parts } from './parts.js';

const offer: HandOver = {
  ...{ id: 'h1', groupId: 'g1', kind: 'GIFT', state: 'OFFERED', side: 'RECEIVER', toName: 'Runa' },
  ...{ offeredOn: '2026-03-12', backOn: null, word: 'For your line', healthNote: longWords },
  ...{ laterSpawnsSeen: true, withScores: true, withPhotos: true, withNotes: false },
  ...{ tag: sire.tag, sex: 'MALE', hatchDate: '2025-10-02', lineCode: 'T', answeredOn: null },
  ...{ answerWord: null, quarantineUntil: null, movedOn: null, returnAs: null },
  ...{ returnSaidOn: null, returnWord: null, endedOn: null, endedAs: null, withdrawn: null },
  ...{ from: { id: 'k1', name: 'Owner' }, to: null, fish: null },
  request: {
    ...{ id: 'r1', what: 'FISH', lineName: 'T Turquoise', mine: true },
    from: { id: 'k2', name: 'Runa' },
  },
};

const loan: HandOver = {
  ...offer,
  ...{ kind: 'LOAN', state: 'MOVED', side: 'GIVER', backOn: '2026-06-01', movedOn: '2026-03-14' },
  ...{ answeredOn: '2026-03-14', to: { id: 'k2', name: 'Runa' }, fish: sire },
};

const spawn = {
  ...{ id: 's1', day: '2026-05-02', sireTag: sire.tag, damTag: 'R-04', failed: false },
  counts: [{ stage: 'EGGS', countedOn: '2026-05-02', number: 120 }] as const,
};

const spawns = answers(LATER_SPAWNS, {
  handOver: { id: 'h1', laterSpawns: [{ ...spawn, counts: [...spawn.counts] }] },
});

const claim: FishClaim = {
  ...{
    id: 'c1',
    tag: 'R-04',
    asTag: 'T24-07-01',
    mine: false,
    state: 'OPEN',
    word: 'Hatched here',
  },
  ...{ claimedOn: '2026-03-12', answeredOn: null, answerWord: null },
  ...{ by: { name: 'Runa' }, to: { name: 'Owner' } },
};

const claims = answers(FISH_CLAIMS, {
  fishClaims: {
    totalCount: 2,
    edges: [
      { node: claim },
      {
        node: { ...claim, id: 'c2', mine: true, state: 'CONFIRMED', answeredOn: '2026-03-14' },
      },
    ],
  },
});

const card = (one: HandOver, ...more: HandOver[]) => (
  <Answering with={[spawns]}>
    <HandOverCard handOvers={[one, ...more]} />
  </Answering>
);

/** Fish from one person to another. */
export const handOverParts: Parts = {
  HandOverCard: {
    'two fish to answer': () => card(offer, { ...offer, id: 'h2', tag: 'T24-07-09' }),
    'offered by whoever looks': () => card({ ...offer, side: 'GIVER' }),
    'lent out': () => card(loan),
    'borrowed, in quarantine': () =>
      card({ ...loan, side: 'RECEIVER', quarantineUntil: '2999-01-01' }),
    'comes back': () =>
      card({ ...loan, state: 'RETURNING', returnAs: 'CAME_BACK', returnSaidOn: '2026-05-28' }),
    'handed over': () =>
      card({ ...loan, kind: 'GIFT', state: 'MOVED', backOn: null, answerWord: longWords }),
    declined: () => card({ ...offer, side: 'GIVER', state: 'DECLINED', answeredOn: '2026-03-14' }),
  },
  FishClaims: {
    'one to answer, one answered': () => (
      <Answering with={[claims]}>
        <FishClaims open={false} />
      </Answering>
    ),
  },
  AcceptForm: {
    'one fish': () => (
      <Answering with={[]}>
        <AcceptForm handOvers={[offer]} onDone={nothing} />
      </Answering>
    ),
  },
  QuarantineCaution: { told: () => <QuarantineCaution /> },
  DeclineForm: {
    empty: () => (
      <Answering with={[]}>
        <DeclineForm handOvers={[offer]} onDone={nothing} />
      </Answering>
    ),
  },
  TakeBackForm: {
    empty: () => (
      <Answering with={[]}>
        <TakeBackForm handOvers={[offer]} onDone={nothing} />
      </Answering>
    ),
  },
  LoanReturnForm: {
    'by the lender': () => (
      <Answering with={[]}>
        <LoanReturnForm handOver={loan} onDone={nothing} />
      </Answering>
    ),
    'by the borrower': () => (
      <Answering with={[]}>
        <LoanReturnForm handOver={{ ...loan, side: 'RECEIVER' }} onDone={nothing} />
      </Answering>
    ),
  },
  PutOffForm: {
    'with its day': () => (
      <Answering with={[]}>
        <PutOffForm handOver={loan} onDone={nothing} />
      </Answering>
    ),
  },
  LaterSpawns: {
    'closed; opens to one spawn': () => (
      <Answering with={[spawns]}>
        <LaterSpawns handOvers={[loan]} />
      </Answering>
    ),
  },
};
