import { FishFace } from '../../components/fish-face.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import type { Disposition } from '../../wording/words.js';
import type { BenchFish, BenchTrait } from './bench-facts.js';
import { decisions } from './decisions.js';
import { ScoreCell } from './score-cell.js';
import type { BenchEntries } from './use-bench-entries.js';
import type { SortingListState } from './use-sorting-list.js';
import styles from './sorting.module.css';

interface SortingRowProps {
  each: BenchFish;
  index: number;
  list: SortingListState;
  /** Scored down the column. */
  trait: BenchTrait | undefined;
  entries: BenchEntries;
}

export function SortingRow({ each, index, list, trait, entries }: SortingRowProps) {
  const { current, onFocus } = list.rows;
  return (
    <tr
      tabIndex={index === Math.max(0, current) ? 0 : -1}
      aria-label={each.tag}
      className={index === current ? 'lw-current' : undefined}
      onFocus={() => onFocus(index, each)}
      onKeyDown={(event) => list.onKey(event, index)}
    >
      <td>
        <FishFace fish={each} /> <FishLink fish={{ id: each.id, tag: each.tag }} />
      </td>
      <td className="lw-wide">
        <SexMark sex={each.sex} />
      </td>
      <td className="lw-wide">
        <DispositionMark disposition={each.disposition} />
        {each.waiting > 0 && <span className={styles['waits']}> waits here</span>}
      </td>
      <td>
        <DecideButtons fish={each} onDecide={(disposition) => list.decide(index, disposition)} />
      </td>
      {trait !== undefined && (
        <td className="lw-number">
          <ScoreCell key={trait.id} fish={each} trait={trait} entries={entries} />
        </td>
      )}
    </tr>
  );
}

interface DecideButtonsProps {
  fish: BenchFish;
  onDecide: (disposition: Disposition) => void;
}

function DecideButtons({ fish, onDecide }: DecideButtonsProps) {
  return (
    <span className="lw-row-buttons">
      {decisions.map(({ disposition, word }) => (
        <button
          key={disposition}
          type="button"
          aria-pressed={fish.disposition === disposition}
          aria-label={`${word} ${fish.tag}`}
          onClick={() => onDecide(disposition)}
        >
          {word}
        </button>
      ))}
    </span>
  );
}
