import { CLUB_REQUESTS, type ClubRequest } from '../api/club.js';
import { type Comment, COMMENTS } from '../api/comments.js';
import { PAIR_MAKERS } from '../api/pairings.js';
import { AnswerRequestForm } from '../panels/answer-request-form.js';
import { ClubRequests } from '../panels/club-requests.js';
import { CommentForm } from '../panels/comment-form.js';
import { CommentsSection } from '../panels/comments-section.js';
import { FishToHandOver } from '../panels/fish-to-hand-over.js';
import { MakerChoice } from '../panels/maker-choice.js';
import { Answering, answers, neverAnswers, refuses } from './invented-api.js';
import { longWords, nothing } from './invented-words.js';
import type { Parts } from './parts.js';

const request: ClubRequest = {
  ...{ id: 'r1', what: 'LOAN', lineId: 'l1', lineName: 'T Turquoise', mine: false },
  ...{ from: { id: 'k1', name: 'Solveig' }, to: { id: 'k2', name: 'Runa' } },
  ...{ words: 'A male for one brood?', askedAt: '2026-03-12T08:00:00Z', state: 'OPEN' },
  ...{ answer: null, endedAt: null, handOvers: [] },
};
const lent: ClubRequest['handOvers'][number] = {
  ...{ id: 'h1', tag: 'T24-07-01', kind: 'LOAN', state: 'MOVED', side: 'GIVER' },
  ...{ toName: 'Solveig', offeredOn: '2026-03-12', backOn: '2026-06-01' },
  ...{ answeredOn: '2026-03-14', movedOn: '2026-03-14', returnAs: null, returnSaidOn: null },
  ...{ endedOn: null, endedAs: null, from: { id: 'k2', name: 'Runa' } },
};
const yes: ClubRequest = {
  ...request,
  ...{ id: 'r2', state: 'YES', answer: longWords, handOvers: [lent] },
};

const requests = (...all: ClubRequest[]) =>
  answers(CLUB_REQUESTS, {
    clubRequests: {
      totalCount: all.length,
      edges: all.map((node) => ({ node })),
      pageInfo: { hasNextPage: false, endCursor: null },
    },
  });

const comment: Comment = {
  ...{ id: 'c1', revision: 1, words: longWords, writtenAt: '2026-03-12T08:00:00Z', mine: false },
  person: { id: 'k1', name: 'Solveig' },
};
const own: Comment = { ...comment, id: 'c2', revision: 2, words: 'Broad, but short', mine: true };

const comments = (...all: Comment[]) =>
  answers(COMMENTS, {
    comments: {
      totalCount: all.length,
      edges: all.map((node) => ({ node })),
      pageInfo: { hasNextPage: false, endCursor: null },
    },
  });

const makers = answers(PAIR_MAKERS, {
  pairMakers: [
    { id: 'k1', name: 'Solveig' },
    { id: 'k2', name: 'Runa' },
  ],
});
const pairing = { id: 'p1', revision: 1, maker: null };

/** What keepers of a club ask each other, and what is said of fish. */
export const clubParts: Parts = {
  ClubRequests: {
    'got, asked and answered': () => (
      <Answering with={[requests(request, { ...request, id: 'r3', mine: true }, yes)]}>
        <ClubRequests title="Requests" />
      </Answering>
    ),
    none: () => (
      <Answering with={[requests()]}>
        <ClubRequests title="Requests" />
      </Answering>
    ),
    refused: () => (
      <Answering with={[refuses(CLUB_REQUESTS, longWords)]}>
        <ClubRequests title="Requests" />
      </Answering>
    ),
  },
  AnswerRequestForm: {
    empty: () => (
      <Answering with={[]}>
        <AnswerRequestForm request={request} onDone={nothing} />
      </Answering>
    ),
  },
  FishToHandOver: {
    'closed; opens on its way': () => (
      <Answering with={[]}>
        <FishToHandOver request={yes} />
      </Answering>
    ),
  },
  CommentsSection: {
    'of another and of one’s own': () => (
      <Answering with={[comments(comment, own)]}>
        <CommentsSection subject={{ fishId: 'f1' }} of="fish T24-07-12" />
      </Answering>
    ),
    none: () => (
      <Answering with={[comments()]}>
        <CommentsSection subject={{ fishId: 'f1' }} of="fish T24-07-12" />
      </Answering>
    ),
    'on its way': () => (
      <Answering with={[neverAnswers(COMMENTS)]}>
        <CommentsSection subject={{ fishId: 'f1' }} of="fish T24-07-12" />
      </Answering>
    ),
  },
  CommentForm: {
    new: () => (
      <Answering with={[]}>
        <CommentForm subject={{ fishId: 'f1' }} onDone={nothing} />
      </Answering>
    ),
    'to be corrected': () => (
      <Answering with={[]}>
        <CommentForm subject={{ fishId: 'f1' }} comment={own} onDone={nothing} />
      </Answering>
    ),
  },
  MakerChoice: {
    'nobody named': () => (
      <Answering with={[makers]}>
        <MakerChoice lineId="l1" pairing={pairing} pair="T24-07-12 by T24-07-09" />
      </Answering>
    ),
    named: () => (
      <Answering with={[makers]}>
        <MakerChoice
          lineId="l1"
          pairing={{ ...pairing, maker: { id: 'k2', name: 'Runa' } }}
          pair="T24-07-12 by T24-07-09"
        />
      </Answering>
    ),
  },
};
