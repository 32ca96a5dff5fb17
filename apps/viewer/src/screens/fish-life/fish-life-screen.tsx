import { Checkbox } from '@mantine/core';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import { FISH_LIFE, type LivedFish } from '../../api/life.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import viewChoiceStyles from '../../components/view-choice.module.css';
import { NOT_SHARED, partWord } from '../../wording/words.js';
import styles from './life.module.css';
import { LIFE_KINDS, type LifeEntry, type LifeKind, lifeOf } from './life-entries.js';

/** A fish's record as one list of days. */
export function FishLifeScreen() {
  const { id = '' } = useParams();
  const read = useRead(FISH_LIFE, { id });
  const tag = read.data?.fish.tag;
  return (
    <Screen
      title={tag === undefined ? 'Life of a fish' : `Life of ${tag}`}
      links={
        <Link className="lw-link-button" to={`/fish/${id}`}>
          Page of the fish
        </Link>
      }
    >
      <Shown read={read} what="the life">
        {({ fish }) => <Life fish={fish} />}
      </Shown>
    </Screen>
  );
}

function Life({ fish }: { fish: LivedFish }) {
  const [hidden, setHidden] = useState<ReadonlySet<LifeKind>>(new Set());
  const [newestFirst, setNewestFirst] = useState(true);
  const all = lifeOf(fish);
  const there = (Object.keys(LIFE_KINDS) as LifeKind[]).filter((kind) =>
    all.some((entry) => entry.kind === kind),
  );
  const chosen = all.filter(({ kind }) => !hidden.has(kind));
  const shown = newestFirst ? chosen : chosen.toReversed();
  const turn = (kind: LifeKind, wanted: boolean): void =>
    setHidden(new Set(wanted ? [...hidden].filter((one) => one !== kind) : [...hidden, kind]));
  return (
    <>
      <div className={viewChoiceStyles['choice']} role="group" aria-label="Order">
        {[true, false].map((newest) => (
          <button
            key={String(newest)}
            type="button"
            aria-pressed={newest === newestFirst}
            onClick={() => setNewestFirst(newest)}
          >
            {newest ? 'Newest first' : 'Oldest first'}
          </button>
        ))}
      </div>
      {there.length > 1 && (
        <div className={styles['kinds']} role="group" aria-label="What is listed">
          {there.map((kind) => (
            <Checkbox
              key={kind}
              label={LIFE_KINDS[kind]}
              checked={!hidden.has(kind)}
              onChange={(event) => turn(kind, event.currentTarget.checked)}
            />
          ))}
        </div>
      )}
      {shown.length === 0 ? (
        <Empty>
          {all.length === 0 ? 'Nothing with a day is on record yet.' : 'Nothing of what is ticked.'}
        </Empty>
      ) : (
        <ol className={styles['life']}>
          {shown.map((entry) => (
            <Entry key={entry.id} entry={entry} />
          ))}
        </ol>
      )}
      <NotShared fish={fish} />
    </>
  );
}

function Entry({ entry: { on, kind, words, path, picture } }: { entry: LifeEntry }) {
  return (
    <li>
      <time dateTime={on}>{on}</time>
      <div>
        <span className="lw-small">{LIFE_KINDS[kind]}</span>
        {path === undefined ? words : <Link to={path}>{words}</Link>}
      </div>
      {picture !== undefined && <img src={picture} alt="" loading="lazy" />}
    </li>
  );
}

/** What may be on record and is not listed for whoever looks. */
function NotShared({ fish: { notShared } }: { fish: LivedFish }) {
  if (notShared.length === 0) return null;
  const parts = notShared.map((part) => partWord[part].toLowerCase()).join(', ');
  return (
    <p className="lw-quiet">
      Not in this list, for it is {NOT_SHARED}: {parts}.
    </p>
  );
}
