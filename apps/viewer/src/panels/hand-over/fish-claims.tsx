import { Button } from '@mantine/core';
import { useContext } from 'react';
import {
  ANSWER_FISH_CLAIM,
  FISH_CLAIMS,
  type FishClaim,
  TAKE_BACK_FISH_CLAIM,
} from '../../api/fish-claims.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { SessionContext } from '../../session/session-context.js';
import styles from './hand-over-card.module.css';

/** Fish of which only a tag is on record, claimed by or from whoever looks; nothing where there are none. */
export function FishClaims({ open }: { open: boolean }) {
  const read = useRead(FISH_CLAIMS, { open });
  const found = read.data?.fishClaims;
  if (found === undefined || found.totalCount === 0) return null;
  return (
    <Section title="One fish, two records" aside={found.totalCount}>
      {found.edges.map(({ node }) => (
        <Claim key={node.id} claim={node} />
      ))}
    </Section>
  );
}

const ended: Record<Exclude<FishClaim['state'], 'OPEN'>, string> = {
  CONFIRMED: 'confirmed',
  DECLINED: 'declined',
  TAKEN_BACK: 'taken back',
};

function claimWords({ mine, by, to, tag, asTag, state, claimedOn, answeredOn }: FishClaim): string {
  const who = mine
    ? `You told ${to.name} that ${tag} of their records is`
    : `${by.name} says that ${tag} of your records is`;
  const whose = mine ? 'yours' : 'theirs';
  const which = asTag === null ? whose : `${asTag} of ${whose}`;
  const then = state === 'OPEN' ? 'no answer yet' : `${ended[state]} on ${answeredOn ?? ''}`;
  return `${who} ${which} (${claimedOn}): ${then}.`;
}

function Claim({ claim }: { claim: FishClaim }) {
  const answering = useSave(ANSWER_FISH_CLAIM);
  const back = useSave(TAKE_BACK_FISH_CLAIM);
  const looking = useContext(SessionContext)?.looking ?? false;
  const { id, tag, asTag, mine, state, word, answerWord } = claim;
  return (
    <article className={styles['card']}>
      <p>{claimWords(claim)}</p>
      {word !== null && <p>“{word}”</p>}
      {answerWord !== null && <p>“{answerWord}”</p>}
      {state === 'OPEN' && !mine && (
        <p className="lw-quiet">
          {asTag === null
            ? 'Confirmed, the record is theirs from then on.'
            : 'Confirmed, their record takes the place of yours wherever it stands as a parent; yours is withdrawn and stays readable.'}
        </p>
      )}
      <ProblemNotice problem={answering.problem ?? back.problem} />
      {state === 'OPEN' && !looking && (
        <div className="lw-form-buttons">
          {mine ? (
            <Button
              loading={back.saving}
              aria-label={`Take back: ${tag}`}
              onClick={() => void back.save({ id })}
            >
              Take back
            </Button>
          ) : (
            <>
              <Button
                className="lw-primary"
                loading={answering.saving}
                aria-label={`It is so: ${tag}`}
                onClick={() => void answering.save({ id, confirmed: true })}
              >
                It is so
              </Button>
              <Button
                disabled={answering.saving}
                aria-label={`It is not: ${tag}`}
                onClick={() => void answering.save({ id, confirmed: false })}
              >
                It is not
              </Button>
            </>
          )}
        </div>
      )}
    </article>
  );
}
