import { useEffect, useState } from 'react';
import { Link } from 'react-router';
import type { Problem } from '../api/problem.js';
import { DataTable } from '../components/data-table.js';
import { Section } from '../components/section.js';
import { allTakenAlong, type TakenAlong } from '../outbox/taken-along.js';
import { opensAlone, usePagesKept } from '../session/pages-kept.js';
import { useSession } from '../session/session-context.js';
import { showTime } from '../wording/figures.js';
import { scoreText } from '../wording/scores.js';
import { compareTags } from '../wording/tags.js';
import { dispositionWord, sexWord } from '../wording/words.js';
import styles from '../outbox/waiting-list.module.css';

type KeptFish = TakenAlong['facts']['spawn']['fish'][number];

function useTakenAlong(): readonly TakenAlong[] {
  const personId = useSession().person?.id ?? '';
  const [all, setAll] = useState<readonly TakenAlong[]>([]);
  useEffect(() => {
    let wanted = true;
    void allTakenAlong(personId).then((found) => wanted && setAll(found));
    return () => {
      wanted = false;
    };
  }, [personId]);
  return all;
}

interface KeptProps {
  /** Shown only while the server does not answer. */
  problem: Problem | null;
  spawnId?: string;
  fishId?: string;
}

/** What the benches opened on this device know of a spawn or a fish, while the server cannot be asked. */
export function KeptOnDevice({ problem, spawnId, fishId }: KeptProps) {
  const all = useTakenAlong();
  if (problem?.code !== 'UNREACHABLE') return null;
  const taken = all.find(
    ({ facts: { spawn } }) => spawn.id === spawnId || spawn.fish.some((fish) => fish.id === fishId),
  );
  if (taken === undefined) return null;
  const { spawn } = taken.facts;
  const fish = fishId === undefined ? spawn.fish : spawn.fish.filter((each) => each.id === fishId);
  return (
    <Section
      title={`Kept on this device: ${fishId === undefined ? `spawn ${spawn.tag}` : (fish[0]?.tag ?? '')}`}
      aside={`as read ${showTime(taken.at)}`}
    >
      <p>
        Read at the bench; what was entered since is not in it.{' '}
        <Link to={`/spawns/${spawn.id}/sort`}>Open the bench of {spawn.tag}</Link>, which takes
        entries without a connection.
      </p>
      <DataTable
        caption="Fish kept on this device"
        rows={[...fish].sort((a, b) => compareTags(a.tag, b.tag))}
        rowKey={(each) => each.id}
        columns={[
          { key: 'tag', title: 'Tag', cell: (each) => each.tag },
          { key: 'sex', title: 'Sex', cell: (each) => sexWord[each.sex] },
          { key: 'now', title: 'Decided', cell: decidedText },
          { key: 'scores', title: 'Scores', cell: (each) => scoresText(each, taken) },
        ]}
      />
    </Section>
  );
}

const decidedText = ({ disposition, dispositionDate, dispositionReason }: KeptFish): string =>
  [dispositionWord[disposition], dispositionDate, dispositionReason]
    .filter((part) => part !== null)
    .join(', ');

const scoresText = (fish: KeptFish, { facts }: TakenAlong): string =>
  fish.latestScores
    .map(({ value, trait: { id } }) => {
      const trait = facts.traits.find((each) => each.id === id);
      return trait === undefined ? '' : `${trait.name} ${scoreText(value, trait)}`;
    })
    .filter(Boolean)
    .join('; ');

/** The way to every bench that this device keeps. */
export function KeptBenches() {
  const all = useTakenAlong();
  const alone = opensAlone(usePagesKept());
  if (all.length === 0) return null;
  return (
    <Section
      title="Benches kept here"
      aside={alone ? 'open without a connection' : 'while this page stays open'}
    >
      <ul className={styles['list']}>
        {[...all]
          .sort((a, b) => compareTags(a.facts.spawn.tag, b.facts.spawn.tag))
          .map(({ facts: { spawn }, at }) => (
            <li key={spawn.id}>
              <Link to={`/spawns/${spawn.id}/sort`}>Sort {spawn.tag}</Link>
              <span className="lw-quiet">as read {showTime(at)}</span>
            </li>
          ))}
      </ul>
    </Section>
  );
}
