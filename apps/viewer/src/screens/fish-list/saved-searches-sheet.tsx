import { zodResolver } from '@hookform/resolvers/zod';
import { Button } from '@mantine/core';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import {
  REMOVE_SAVED_SEARCH,
  SAVE_SEARCH,
  SAVED_SEARCHES,
  type SavedSearch,
} from '../../api/saved-searches.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { ProblemNotice } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import styles from './saved-searches.module.css';

interface SavedSearchesSheetProps {
  opened: boolean;
  /** What the list is narrowed to now, as in its address; empty for nothing. */
  filter: string;
  onClose: () => void;
}

/** Searches of the list that were given a name: opened, removed, and one more saved. */
export function SavedSearchesSheet({ opened, filter, onClose }: SavedSearchesSheetProps) {
  return (
    <Sheet title="Saved searches" opened={opened} onClose={onClose}>
      <Saved filter={filter} onClose={onClose} />
    </Sheet>
  );
}

function Saved({ filter, onClose }: Omit<SavedSearchesSheetProps, 'opened'>) {
  const read = useRead(SAVED_SEARCHES, {});
  return (
    <Shown read={read} what="the saved searches">
      {({ savedSearches }) => (
        <>
          {savedSearches.length === 0 && <p>None yet. They are yours alone.</p>}
          <ul className={styles['saved']}>
            {savedSearches.map((search) => (
              <SavedRow key={search.id} {...{ search, onClose }} onRemoved={read.reload} />
            ))}
          </ul>
          {filter === '' ? (
            <p className="lw-quiet">Narrow the list of fish to save what it shows.</p>
          ) : (
            <SaveForm filter={filter} onSaved={onClose} />
          )}
        </>
      )}
    </Shown>
  );
}

interface SavedRowProps {
  search: SavedSearch;
  onRemoved: () => void;
  onClose: () => void;
}

function SavedRow({ search: { id, name, filter }, onRemoved, onClose }: SavedRowProps) {
  const { save, saving, problem } = useSave(REMOVE_SAVED_SEARCH);
  return (
    <li>
      <Link to={`/fish?${filter}`} onClick={onClose}>
        {name}
      </Link>
      <Button
        aria-label={`Remove ${name}`}
        loading={saving}
        onClick={async () => {
          if ((await save({ id })) !== null) onRemoved();
        }}
      >
        Remove
      </Button>
      <ProblemNotice problem={problem} />
    </li>
  );
}

const schema = z.object({ name: requiredText('Give the search a name.') });

function SaveForm({ filter, onSaved }: { filter: string; onSaved: () => void }) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: { name: '' } });
  const { save, saving, problem } = useSave(SAVE_SEARCH);
  return (
    <RecordForm
      form={form}
      submit="Save this search"
      saving={saving}
      problem={problem}
      onSubmit={async ({ name }) => {
        if ((await save({ input: { name, filter } })) !== null) onSaved();
      }}
    >
      <TextField
        name="name"
        label="Name of what the list shows now"
        hint="One of the same name is replaced."
        required
      />
    </RecordForm>
  );
}
