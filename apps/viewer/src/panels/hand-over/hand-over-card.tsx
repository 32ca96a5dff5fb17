import { Button } from '@mantine/core';
import { useContext, useState } from 'react';
import { Link } from 'react-router';
import type { HandOver } from '../../api/hand-overs.js';
import { Sheet } from '../../components/sheet.js';
import { SessionContext } from '../../session/session-context.js';
import { ASKS_FOR } from '../../wording/club-words.js';
import { today } from '../../wording/figures.js';
import { stateWords } from '../../wording/hand-over-words.js';
import { capital } from '../../wording/words.js';
import { AcceptForm } from './accept-form.js';
import { LaterSpawns } from './later-spawns.js';
import { LoanReturnForm, PutOffForm } from './loan-forms.js';
import { DeclineForm, TakeBackForm } from './word-form.js';
import styles from './hand-over-card.module.css';

type Opened = 'accept' | 'decline' | 'take-back' | 'return' | 'put-off' | null;

interface HandOverCardProps {
  /** Offered together, and standing alike; at least one. */
  handOvers: readonly [HandOver, ...HandOver[]];
}

/** Fish that were offered together: who to whom, how far it is, and what whoever looks can do about it. */
export function HandOverCard({ handOvers }: HandOverCardProps) {
  const [opened, setOpened] = useState<Opened>(null);
  const [first] = handOvers;
  const looking = useContext(SessionContext)?.looking ?? false;
  const tags = handOvers.map(({ tag }) => tag).join(', ');
  return (
    <article className={styles['card']}>
      <h3>
        {handOvers.map((one, k) => (
          <span key={one.id}>
            {k > 0 && ', '}
            {one.fish === null ? one.tag : <Link to={`/fish/${one.fish.id}`}>{one.fish.tag}</Link>}
          </span>
        ))}
        {first.lineCode !== null && <span className="lw-quiet"> of line {first.lineCode}</span>}
      </h3>
      <p>{capital(stateWords(first))}</p>
      <Answers request={first.request} />
      <Words handOver={first} />
      {!looking && <Actions handOver={first} tags={tags} onOpen={setOpened} />}
      {first.laterSpawnsSeen && first.movedOn !== null && first.side === 'GIVER' && (
        <LaterSpawns handOvers={handOvers} />
      )}
      <Sheets handOvers={handOvers} tags={tags} opened={opened} onClose={() => setOpened(null)} />
    </article>
  );
}

/** The request of the club that it is for. */
function Answers({ request }: Pick<HandOver, 'request'>) {
  if (request === null) return null;
  const who = request.mine ? 'you' : request.from.name;
  return (
    <p className="lw-quiet">
      For {ASKS_FOR[request.what]}, line {request.lineName}, that {who} asked for
    </p>
  );
}

/** What either side wrote. */
function Words({ handOver }: { handOver: HandOver }) {
  const { from, toName, side, word, healthNote, answerWord, returnWord, withdrawn } = handOver;
  const isOver = handOver.endedOn !== null || handOver.quarantineUntil === null;
  const inQuarantine = !isOver && handOver.quarantineUntil! >= today();
  const said: [string, string | null][] = [
    [`${side === 'GIVER' ? 'You' : from.name} wrote`, word],
    ['Health', healthNote],
    [`${side === 'RECEIVER' ? 'You' : toName} answered`, answerWord],
    ['On its return', returnWord],
    ['Taken back', withdrawn?.reason ?? null],
    ['In quarantine until', inQuarantine ? handOver.quarantineUntil : null],
  ];
  return (
    <>
      {said.map(
        ([who, text]) =>
          text !== null && (
            <p key={who}>
              <span className="lw-quiet">{who}:</span> {text}
            </p>
          ),
      )}
    </>
  );
}

interface ActionsProps {
  handOver: HandOver;
  tags: string;
  onOpen: (opened: Opened) => void;
}

/** What whoever looks can do now, the likeliest first. */
const waysOf = ({ state, side, kind }: HandOver): readonly [Exclude<Opened, null>, string][] => {
  const lent = kind === 'LOAN' && (state === 'MOVED' || state === 'RETURNING');
  if (state === 'OFFERED' && side === 'RECEIVER')
    return [
      ['accept', 'Accept'],
      ['decline', 'Decline'],
    ];
  if (state === 'OFFERED' && side === 'GIVER') return [['take-back', 'Take back']];
  if (lent && side === 'GIVER')
    return [
      ['return', state === 'RETURNING' ? 'It is back' : 'End the loan'],
      ['put-off', 'Another day'],
    ];
  if (lent && side === 'RECEIVER' && state === 'MOVED') return [['return', 'Give it back']];
  return [];
};

function Actions({ handOver, tags, onOpen }: ActionsProps) {
  const { id, state, side, kind, to, fish } = handOver;
  const lasting =
    kind === 'LOAN' && state === 'MOVED' && side === 'GIVER' && to !== null && fish !== null;
  const ways = waysOf(handOver);
  if (ways.length === 0) return null;
  return (
    <div className="lw-form-buttons">
      {ways.map(([way, words], k) => (
        <Button
          key={way}
          className={k === 0 && state !== 'MOVED' && way !== 'take-back' ? 'lw-primary' : ''}
          aria-label={`${words}: ${tags}`}
          onClick={() => onOpen(way)}
        >
          {words}
        </Button>
      ))}
      {lasting && (
        <Link
          key={id}
          className="lw-link-button"
          to={`/fish/${fish.id}/hand-over?to=${to.id}&kind=GIFT`}
        >
          Let them keep it
        </Link>
      )}
    </div>
  );
}

interface SheetsProps extends HandOverCardProps {
  tags: string;
  opened: Opened;
  onClose: () => void;
}

function Sheets({ handOvers, tags, opened, onClose }: SheetsProps) {
  const given = { handOvers, onDone: onClose };
  const one = { handOver: handOvers[0], onDone: onClose };
  const sheets: Record<Exclude<Opened, null>, [string, React.ReactNode]> = {
    accept: [`Accept ${tags}`, <AcceptForm key="accept" {...given} />],
    decline: [`Decline ${tags}`, <DeclineForm key="decline" {...given} />],
    'take-back': [`Take back the offer of ${tags}`, <TakeBackForm key="take-back" {...given} />],
    return: [`The loan of ${tags}`, <LoanReturnForm key="return" {...one} />],
    'put-off': [`When ${tags} is to be back`, <PutOffForm key="put-off" {...one} />],
  };
  const [title, form] = opened === null ? ['', null] : sheets[opened];
  return (
    <Sheet title={title} opened={opened !== null} onClose={onClose}>
      {form}
    </Sheet>
  );
}
