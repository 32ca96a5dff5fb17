import { Button } from '@mantine/core';
import { useContext } from 'react';
import { Link, useParams } from 'react-router';
import type { ResultOf } from '../../api/graphql.js';
import { SPAWN_FISH } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { FishFace, FishPicturesContext } from '../../components/fish-face.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { FishPictures } from '../../panels/fish-pictures.js';
import { plural } from '../../wording/figures.js';
import { picturedWords, shownAs } from './contact-sheet.js';
import styles from './contact-sheet.module.css';

type Brood = ResultOf<typeof SPAWN_FISH>['spawn'];

/** A brood at a glance: every fish of a spawn with its newest picture, its tag and what was decided; made to be printed. */
export function ContactSheetScreen() {
  const { id = '' } = useParams();
  const read = useRead(SPAWN_FISH, { id });
  return (
    <Shown read={read} what="the fish">
      {({ spawn }) => (
        <FishPictures ids={spawn.fish.map((each) => each.id)}>
          <Brood spawn={spawn} />
        </FishPictures>
      )}
    </Shown>
  );
}

function Brood({ spawn }: { spawn: Brood }) {
  const found = useContext(FishPicturesContext);
  const shown = spawn.fish.map(({ id }) => shownAs(found.get(id)));
  return (
    <Screen
      title={`Spawn ${spawn.tag}: contact sheet`}
      lead={`${plural(spawn.fish.length, 'fish', 'fish')}. ${picturedWords(shown)}`}
      links={<Link to={`/spawns/${spawn.id}`}>Back to the spawn</Link>}
      actions={spawn.fish.length > 0 && <Button onClick={() => window.print()}>Print</Button>}
    >
      {spawn.fish.length === 0 ? (
        <Empty>No fish of this spawn has a record of its own yet.</Empty>
      ) : (
        <ul className={styles['fish']}>
          {spawn.fish.map((fish, k) => (
            <li key={fish.id}>
              <FishFace fish={fish} size="sheet" />
              {shown[k] === 'none' && <span className={styles['none']}>no picture</span>}
              <div className={styles['words']}>
                <FishLink fish={{ id: fish.id, tag: fish.tag }} /> <SexMark sex={fish.sex} />
              </div>
              <div className={styles['words']}>
                <DispositionMark disposition={fish.disposition} />
                {fish.dispositionReason !== null && ` · ${fish.dispositionReason}`}
              </div>
              <div className="lw-small">
                {dayWords(found.get(fish.id)?.photo ?? null, shown[k])}
              </div>
            </li>
          ))}
        </ul>
      )}
    </Screen>
  );
}

const dayWords = (photo: { takenOn: string | null } | null, as: string | undefined): string =>
  as === 'drawn' ? 'drawn from its looks' : photo === null ? '' : (photo.takenOn ?? 'no date');
