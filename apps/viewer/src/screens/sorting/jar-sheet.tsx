import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useState } from 'react';
import { wholeNumber } from '../../components/field-rules.js';
import { Sheet } from '../../components/sheet.js';
import { useUnsaved } from '../../components/unsaved.js';
import { plural } from '../../wording/figures.js';
import { optionsOf, sexWord, type Sex } from '../../wording/words.js';
import { nextTags } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';

const MOST = 200;

const jars = wholeNumber(1, MOST);

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

function useJars({ bench, entries, say, onClose }: JarSheetProps) {
  const [number, setNumber] = useState('1');
  const [sex, setSex] = useState<Sex>('UNSEXED');
  useUnsaved(number !== '1' || sex !== 'UNSEXED');
  const count = jars.safeParse(number).data;
  const save = async () => {
    if (count === undefined || !(await entries.jar(count, sex))) return;
    say(`${plural(count, 'fish', 'fish')} jarred`);
    onClose();
  };
  const tags = count === undefined ? [] : nextTags(bench, count);
  return { number, setNumber, sex, setSex, valid: count !== undefined, tags, save };
}

function JarForm(props: JarSheetProps) {
  const { number, setNumber, sex, setSex, valid, tags, save } = useJars(props);
  return (
    <form
      className="lw-form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
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
      {valid && <JarTags tags={tags} />}
      <JarCaution />
      <JarButtons onCancel={props.onClose} />
    </form>
  );
}

function JarCaution() {
  return (
    <p className="lw-quiet">
      One fish a jar, a lid on it, and something between neighbours that hides them: fighting fish
      wound one another.
    </p>
  );
}

function JarButtons({ onCancel }: { onCancel: () => void }) {
  return (
    <div className="lw-form-buttons">
      <Button type="submit" size="md" className="lw-primary">
        Jar them
      </Button>
      <Button size="md" onClick={onCancel}>
        Cancel
      </Button>
    </div>
  );
}

function JarTags({ tags }: { tags: readonly string[] }) {
  return (
    <p>
      Write on the jars: <strong>{tags[0]}</strong>
      {tags.length > 1 && (
        <>
          {' '}
          to <strong>{tags.at(-1)}</strong>
        </>
      )}
    </p>
  );
}
