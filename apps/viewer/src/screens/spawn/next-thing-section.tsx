import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { SPAWN_CARE } from '../../api/care.js';
import { SPAWN_PHOTOS } from '../../api/photos.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { now as clockNow } from '../../clock/clock.js';
import { Cautions, ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { useMayAdd } from '../../session/may.js';
import { JustDone } from '../today/just-done.js';
import { CountForm } from './counts-section.js';
import { nextThing, type NextThing } from './next-thing.js';
import { tapHint, tapTitle } from './tap-words.js';
import { useLogTaps } from './use-log-taps.js';
import styles from './next-thing-section.module.css';

/** A tab of the page on a phone. */
export type SpawnTab = 'log' | 'fish' | 'care' | 'about';

interface NextThingSectionProps {
  spawn: SpawnFacts;
  onTab: (tab: SpawnTab) => void;
}

/** The one thing to do now, on top of the page: sort, log, count or take a photo. */
export function NextThingSection({ spawn, onTab }: NextThingSectionProps) {
  const [now] = useState(() => clockNow().getTime());
  const [counting, setCounting] = useState(false);
  const care = useRead(SPAWN_CARE, { id: spawn.id }).data?.spawn.care;
  const photos = useRead(SPAWN_PHOTOS, { id: spawn.id }).data?.spawn.photos;
  const mayAdd = useMayAdd();
  const taps = useLogTaps(spawn.id);
  if (care === undefined || photos === undefined) return null;
  const pictured = photos.flatMap(({ takenOn }) => takenOn ?? []);
  const next = nextThing({ spawn, care, pictured, now });
  if (next === null || (next.kind === 'photo' && !mayAdd)) return null;
  const acts = {
    onCount: () => setCounting(true),
    onPhoto: () => onTab('fish'),
  };
  return (
    <Section title="Now">
      {next.kind === 'log' ? (
        <>
          <Button
            className="lw-primary"
            fullWidth
            disabled={taps.saving}
            onClick={() => void taps.record(next.step)}
          >
            {tapTitle(next.step.step)}
          </Button>
          <p className="lw-quiet">{tapHint(next.step)}</p>
          <Cautions of={next.step.step.caution === null ? [] : [next.step.step.caution]} />
        </>
      ) : (
        <Other next={next} spawn={spawn} {...acts} />
      )}
      <ProblemNotice problem={taps.problem} />
      <JustDone
        recorded={taps.last}
        undoing={taps.undoing}
        onUndo={(recorded) => void taps.undo(recorded)}
      />
      <Sheet
        title={`Record a count of spawn ${spawn.tag}`}
        opened={counting}
        onClose={() => setCounting(false)}
      >
        <CountForm spawnId={spawn.id} onClose={() => setCounting(false)} />
      </Sheet>
    </Section>
  );
}

interface OtherProps {
  next: Exclude<NextThing, { kind: 'log' }>;
  spawn: SpawnFacts;
  onCount: () => void;
  onPhoto: () => void;
}

function Other({ next, spawn, onCount, onPhoto }: OtherProps) {
  if (next.kind === 'sort')
    return (
      <Link className={styles['sort']} to={`/spawns/${spawn.id}/sort`}>
        Sort the fish
      </Link>
    );
  if (next.kind === 'count')
    return (
      <Button className="lw-primary" fullWidth onClick={onCount}>
        Count the fry
      </Button>
    );
  if (next.kind === 'photo')
    return (
      <Button className="lw-primary" fullWidth onClick={onPhoto}>
        Take a photo
      </Button>
    );
  return (
    <p className="lw-quiet">
      Nothing asks for you now.
      {next.step !== null && ` Next: ${tapTitle(next.step.step)}, ${tapHint(next.step)}.`}
    </p>
  );
}
