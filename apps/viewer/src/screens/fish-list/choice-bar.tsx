import { Button } from '@mantine/core';
import { Link } from 'react-router';
import { FISH_COUNT } from '../../api/fish-acts.js';
import type { VariablesOf } from '../../api/graphql.js';
import { useRead } from '../../api/use-read.js';
import { plural } from '../../wording/figures.js';
import type { ActKind } from './act-kind.js';
import styles from './choice-bar.module.css';
import { choiceWords } from './choice-words.js';
import { MOST_CHOSEN } from './choice.js';
import type { FishChoice } from './use-choice.js';

interface ChoiceBarProps {
  fish: FishChoice;
  /** The filter of the list now: chosen fish that do not fit it are counted. */
  filter: NonNullable<VariablesOf<typeof FISH_COUNT>['filter']>;
  totalCount: number | null;
  onAll: () => void;
  onAct: (kind: ActKind) => void;
}

/** How many of these fish the filter shows; null while that is being asked. */
function useShownOf(ids: readonly string[], filter: ChoiceBarProps['filter']): number | null {
  const none = ids.length === 0;
  const shown = useRead(FISH_COUNT, { filter: { ...filter, ids: [...ids] } }, { pause: none });
  return none ? 0 : (shown.data?.fishList.totalCount ?? null);
}

function allWords(totalCount: number | null): string {
  if (totalCount !== null && totalCount > MOST_CHOSEN) return `Choose the first ${MOST_CHOSEN}`;
  return `Choose all ${totalCount === null ? '' : plural(totalCount, 'fish', 'fish')}`;
}

/** How many fish are chosen and what can be done with them, below the list. */
export function ChoiceBar({ fish, filter, totalCount, onAll, onAct }: ChoiceBarProps) {
  const { choice, beyond } = fish;
  const ids = choice.map(({ id }) => id);
  const inFilter = useShownOf(ids, filter);
  const none = ids.length === 0;
  const act = (kind: ActKind, label: string) => (
    <Button disabled={none} onClick={() => onAct(kind)}>
      {label}
    </Button>
  );
  return (
    <div className={styles['bar']} role="group" aria-label="Chosen fish">
      <p className={styles['told']} role="status">
        {choiceWords({ chosen: ids.length, inFilter, beyond })}{' '}
        <Link to="/fish-acts">Earlier changes</Link>
      </p>
      <div className={styles['buttons']}>
        <Button disabled={totalCount === null || totalCount === 0} onClick={onAll}>
          {allWords(totalCount)}
        </Button>
        <Button disabled={none} onClick={fish.clear}>
          Choose none
        </Button>
        <Button onClick={() => fish.setChoosing(false)}>Close</Button>
        {act('line', 'Line…')}
        {act('decision', 'Decide…')}
        {act('withdrawal', 'Withdraw…')}
      </div>
    </div>
  );
}
