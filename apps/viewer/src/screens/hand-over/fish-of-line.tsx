import { useState } from 'react';
import { Button, Checkbox } from '@mantine/core';
import { useController } from 'react-hook-form';
import { FISH_OF_LINE_TO_HAND_OVER, type OfferedFish } from '../../api/hand-overs.js';
import { useRead } from '../../api/use-read.js';
import { Shown } from '../../components/states.js';
import { dispositionWord } from '../../wording/words.js';
import styles from './offer-form.module.css';

const ALIVE = ['UNSORTED', 'KEEPER', 'HOLD', 'PLACED'] as const;

/** Others of its line that go along: those that swim with the same person, and are nowhere else on offer. */
export function FishOfLine({ fish }: { fish: OfferedFish }) {
  const [opened, setOpened] = useState(false);
  const { line } = fish;
  const lasting = fish.handOvers.length > 0;
  if (line === null || lasting) return null;
  if (!opened)
    return (
      <Button variant="default" onClick={() => setOpened(true)}>
        More fish of line {line.code}
      </Button>
    );
  return <Others fish={fish} line={line} />;
}

function Others({ fish, line }: { fish: OfferedFish; line: { id: string; code: string } }) {
  const read = useRead(FISH_OF_LINE_TO_HAND_OVER, {
    filter: { lineIds: [line.id], dispositions: [...ALIVE], includeWithdrawn: false },
  });
  const { field } = useController<{ others: string[] }, 'others'>({ name: 'others' });
  const chosen: readonly string[] = field.value;
  return (
    <fieldset className={styles['group']}>
      <legend>More fish of line {line.code}</legend>
      <Shown read={read} what="the fish">
        {({ fishList }) => {
          const others = fishList.edges
            .map(({ node }) => node)
            .filter(
              ({ id, person, swimsWith, handOvers }) =>
                id !== fish.id &&
                person.id === fish.person.id &&
                swimsWith?.id === fish.person.id &&
                handOvers.every(({ state }) => state !== 'OFFERED'),
            );
          if (others.length === 0)
            return <p className="lw-quiet">No other fish of it swims here.</p>;
          return others.map(({ id, tag, disposition }) => (
            <Checkbox
              key={id}
              label={`${tag}, ${dispositionWord[disposition]}`}
              checked={chosen.includes(id)}
              onChange={({ currentTarget: { checked } }) =>
                field.onChange(checked ? [...chosen, id] : chosen.filter((one) => one !== id))
              }
            />
          ));
        }}
      </Shown>
    </fieldset>
  );
}
