import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Sheet } from '../../components/sheet.js';
import { useUnsaved } from '../../components/unsaved.js';
import { plural } from '../../wording/figures.js';
import { optionsOf, sexWord, type Sex } from '../../wording/words.js';
import { nextTags } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';

const MOST = 200;

interface JarSheetProps extends BenchParts {
  opened: boolean;
  onClose: () => void;
}

/** Gives records to fish as they are jarred; the tags count on from those known on this device. */
export function JarSheet(props: JarSheetProps) {
  return (
    <Sheet title={`Jar fish of ${props.bench.tag}`} opened={props.opened} onClose={props.onClose}>
      <JarForm {...props} />
    </Sheet>
  );
}

function JarForm({ bench, entries, say, onClose }: JarSheetProps) {
  const [number, setNumber] = useState('1');
  const [sex, setSex] = useState<Sex>('UNSEXED');
  useUnsaved(number !== '1' || sex !== 'UNSEXED');
  const count = Number(number);
  const valid = Number.isInteger(count) && count >= 1 && count <= MOST;
  const tags = valid ? nextTags(bench, count) : [];
  return (
    <form
      className="lw-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!valid) return;
        void entries.jar(count, sex).then((entered) => {
          if (!entered) return;
          say(`${plural(count, 'fish', 'fish')} jarred`);
          onClose();
        });
      }}
    >
      <TextInput
        label="Number of jars"
        inputMode="numeric"
        value={number}
        data-autofocus
        error={valid ? undefined : `Give a whole number, 1 to ${MOST}.`}
        onChange={(event) => setNumber(event.currentTarget.value)}
      />
      <NativeSelect
        label="Sex"
        value={sex}
        onChange={(event) => setSex(event.currentTarget.value as Sex)}
        data={optionsOf(sexWord)}
      />
      <JarTags valid={valid} tags={tags} count={count} />
      <p className="lw-quiet">
        One fish a jar, a lid on it, and something between neighbours that hides them: fighting fish
        wound one another.
      </p>
      <div className="lw-form-buttons">
        <Button type="submit" size="md" className="lw-primary">
          Jar them
        </Button>
        <Button size="md" onClick={onClose}>
          Cancel
        </Button>
      </div>
    </form>
  );
}

function JarTags({ valid, tags, count }: { valid: boolean; tags: string[]; count: number }) {
  return (
    valid && (
      <p>
        Write on the jars: <strong>{tags[0]}</strong>
        {count > 1 && (
          <>
            {' '}
            to <strong>{tags[count - 1]}</strong>
          </>
        )}
      </p>
    )
  );
}
