import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { CLUB_REQUESTS, type ClubRequest, WITHDRAW_CLUB_REQUEST } from '../api/club.js';
import { useRead } from '../api/use-read.js';
import { useSave } from '../api/use-save.js';
import { MorePages } from '../components/more-pages.js';
import { ProblemNotice } from '../components/notice.js';
import { Section } from '../components/section.js';
import { Sheet } from '../components/sheet.js';
import { Empty, Shown } from '../components/states.js';
import { ASKS_FOR, REQUEST_STATES } from '../wording/club-words.js';
import { showTime } from '../wording/figures.js';
import { stateWords } from '../wording/hand-over-words.js';
import { FishToHandOver } from './fish-to-hand-over.js';
import { AnswerRequestForm } from './answer-request-form.js';

interface ClubRequestsProps {
  title: string;
  /** Only those that wait for an answer; nothing is drawn where there is none. */
  openAlone?: boolean;
}

/** What was asked of whoever is signed in, and what they asked. */
export function ClubRequests({ title, openAlone = false }: ClubRequestsProps) {
  const read = useRead(CLUB_REQUESTS, { openAlone, after: null });
  const page = read.data?.clubRequests;
  if (openAlone && (page === undefined || page.totalCount === 0)) return null;
  return (
    <Section title={title} {...(page !== undefined && { aside: page.totalCount })}>
      <Requests openAlone={openAlone} />
    </Section>
  );
}

interface RequestsProps {
  openAlone: boolean;
  after?: string | null;
  before?: number;
}

function Requests({ openAlone, after = null, before = 0 }: RequestsProps) {
  const read = useRead(CLUB_REQUESTS, { openAlone, after });
  const [answering, setAnswering] = useState<ClubRequest | null>(null);
  return (
    <Shown read={read} what="the requests">
      {({ clubRequests }) => (
        <>
          {clubRequests.totalCount === 0 && (
            <Empty>Nothing was asked yet. “Ask” beside a line sends its keeper a word.</Empty>
          )}
          <ul className="lw-judged">
            {clubRequests.edges.map(({ node }) => (
              <Request key={node.id} request={node} onAnswer={() => setAnswering(node)} />
            ))}
          </ul>
          <MorePages
            page={clubRequests}
            listed={before + clubRequests.edges.length}
            what="requests"
            next={(cursor) => (
              <Requests
                openAlone={openAlone}
                after={cursor}
                before={before + clubRequests.edges.length}
              />
            )}
          />
          <Sheet
            title={answering === null ? 'Answer' : `Answer ${answering.from.name}`}
            opened={answering !== null}
            onClose={() => setAnswering(null)}
          >
            {answering !== null && (
              <AnswerRequestForm request={answering} onDone={() => setAnswering(null)} />
            )}
          </Sheet>
        </>
      )}
    </Shown>
  );
}

function Request({ request, onAnswer }: { request: ClubRequest; onAnswer: () => void }) {
  const { save, saving, problem } = useSave(WITHDRAW_CLUB_REQUEST);
  const { mine, from, to, what, lineName, words, answer, state } = request;
  return (
    <li>
      <p>
        <strong>{mine ? `You asked ${to.name}` : `${from.name} asked you`}</strong>, line {lineName}
        : {ASKS_FOR[what]}.{' '}
        <span className="lw-quiet">
          {showTime(request.askedAt)}, {REQUEST_STATES[state]}
        </span>
      </p>
      <p className="lw-words">“{words}”</p>
      {answer !== null && (
        <p className="lw-words">
          {mine ? to.name : 'You'}: “{answer}”
        </p>
      )}
      {state === 'OPEN' && (
        <div className="lw-form-buttons">
          {mine ? (
            <Button
              size="xs"
              loading={saving}
              aria-label={`Withdraw what you asked ${to.name} about ${lineName}`}
              onClick={() => void save({ requestId: request.id })}
            >
              Withdraw
            </Button>
          ) : (
            <Button size="xs" aria-label={`Answer ${from.name}`} onClick={onAnswer}>
              Answer
            </Button>
          )}
        </div>
      )}
      <Offered handOvers={request.handOvers} />
      {state === 'YES' && (!mine || what === 'STUD') && <FishToHandOver request={request} />}
      <ProblemNotice problem={problem} />
    </li>
  );
}

/** What became of it, fish by fish. */
function Offered({ handOvers }: Pick<ClubRequest, 'handOvers'>) {
  return handOvers.map((one) => (
    <p key={one.id}>
      {one.tag}: {stateWords(one)}. <Link to="/hand-overs">Hand-overs</Link>
    </p>
  ));
}
