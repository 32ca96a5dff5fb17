import { Button } from '@mantine/core';
import { plural } from '../../wording/figures.js';
import type { Printable } from './use-printables.js';
import styles from './print.module.css';

interface ChoiceListProps {
  what: string;
  list: readonly Printable[];
  total: number;
  chosen: ReadonlySet<string>;
  onChange: (chosen: ReadonlySet<string>) => void;
}

/** Ticks for what is printed. */
export function ChoiceList({ what, list, total, chosen, onChange }: ChoiceListProps) {
  if (list.length === 0) {
    return <p className="lw-quiet">No {what} here fits: go back and widen the filter.</p>;
  }
  const toggle = (id: string) => {
    const next = new Set(chosen);
    if (!next.delete(id)) next.add(id);
    onChange(next);
  };
  return (
    <>
      <div className="lw-actions">
        <Button size="xs" onClick={() => onChange(new Set(list.map(({ id }) => id)))}>
          All {list.length}
        </Button>
        <Button size="xs" onClick={() => onChange(new Set())}>
          None
        </Button>
        {total > list.length && (
          <span className="lw-quiet">
            The first {list.length} of {plural(total, what, what === 'fish' ? 'fish' : `${what}s`)}:
            filter the list to reach the rest.
          </span>
        )}
      </div>
      <ul className={styles['choices']} tabIndex={0} aria-label={`Which ${what} to print`}>
        {list.map(({ id, label }) => (
          <li key={id}>
            <label>
              <input type="checkbox" checked={chosen.has(id)} onChange={() => toggle(id)} />
              {label}
            </label>
          </li>
        ))}
      </ul>
    </>
  );
}
