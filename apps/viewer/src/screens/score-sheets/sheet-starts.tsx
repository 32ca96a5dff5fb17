import { Button } from '@mantine/core';
import { useState } from 'react';
import type { ResultOf } from '../../api/graphql.js';
import { newId } from '../../api/new-id.js';
import { SHEET_STARTS, START_SHEET } from '../../api/score-sheets.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { Shown } from '../../components/states.js';
import styles from './score-sheets-screen.module.css';

/** Sheets to begin with, each with its traits. */
export function SheetStarts({ onMade }: { onMade: (id: string) => void }) {
  const read = useRead(SHEET_STARTS, {});
  const { save, saving, problem } = useSave(START_SHEET);
  const [id] = useState(newId);
  return (
    <Shown read={read} what="the starting sheets">
      {({ sheetStarts }) => (
        <>
          <p className="lw-words">
            What is commonly scored at each age. None of it is a rule: every trait, fault, class and
            age can be changed, and weights and points start empty. Traits that you do not have yet
            are defined for you; yours with the same key are used as they are.
          </p>
          <ProblemNotice problem={problem} />
          <ul className={styles['start-list']}>
            {sheetStarts.map((start) => (
              <StartItem
                key={start.key}
                start={start}
                saving={saving}
                save={save}
                id={id}
                onMade={onMade}
              />
            ))}
          </ul>
        </>
      )}
    </Shown>
  );
}

interface StartItemProps {
  start: ResultOf<typeof SHEET_STARTS>['sheetStarts'][number];
  saving: boolean;
  save: (variables: {
    input: { start: string; name?: string | null; id?: string | null };
  }) => Promise<{ startScoreSheet: { id: string } } | null>;
  id: string;
  onMade: (id: string) => void;
}

function StartItem({ start, saving, save, id, onMade }: StartItemProps) {
  return (
    <li>
      <strong>{start.name}</strong>
      <p>{start.description}</p>
      <p className="lw-quiet">
        {start.traitNames.join(', ')}. Faults:{' '}
        {start.faults.map((fault) => fault.name.toLowerCase()).join(', ')}.
      </p>
      <Button
        disabled={saving}
        aria-label={`Start from ${start.name}`}
        onClick={async () => {
          const saved = await save({ input: { id, start: start.key } });
          if (saved !== null) onMade(saved.startScoreSheet.id);
        }}
      >
        Start from this
      </Button>
    </li>
  );
}
