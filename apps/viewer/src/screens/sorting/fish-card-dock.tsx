import { clsx } from 'clsx';
import { Button, TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import { Link } from 'react-router';
import { CullCaution } from '../fish/decision-cautions.js';
import { TotalLine } from '../score-sheets/total-line.js';
import type { BenchFish } from './bench-facts.js';
import { decisions } from './decisions.js';
import type { FishCard } from './use-fish-card.js';
import styles from './sorting.module.css';
import type { Reason } from './reasons.js';

interface DockProps {
  fish: BenchFish;
  card: FishCard;
  keysOn: boolean;
  onKeys: (on: boolean) => void;
  /** What is said before anything is decided. */
  children: ReactNode;
}

/** Always in reach of a thumb: the total so far, reasons, decisions, moves. */
export function FishCardDock({ fish, card, keysOn, onKeys, children }: DockProps) {
  const { sheet, values, filled } = card;
  return (
    <div className={styles['dock']}>
      {sheet !== null && (
        <div aria-live="polite">
          <TotalLine version={sheet.current} values={values} faultIds={filled.faultIds} />
        </div>
      )}
      {children}
      <Reasons fish={fish} card={card} />
      {!filled.culling && <Decisions fish={fish} card={card} />}
      {!filled.culling && (
        <p className={clsx('lw-quiet', styles['law'])}>
          Before you place a fish: <Link to="/cautions">the law</Link>, and never release one.
        </p>
      )}
      <Moves card={card} />
      <KeysHelp keysOn={keysOn} onKeys={onKeys} />
    </div>
  );
}

interface CardProps {
  fish: BenchFish;
  card: FishCard;
}

function Reasons({ fish, card }: CardProps) {
  const { reasons, pick } = card;
  const { reason, culling } = card.filled;
  return (
    <div className={culling ? clsx(styles['reasons'], styles['asks']) : styles['reasons']}>
      {culling && (
        <>
          <strong>Cull {fish.tag}: why?</strong>
          <CullCaution />
        </>
      )}
      <div
        className={clsx(styles['chips'], styles['scroll'])}
        role="group"
        aria-label={culling ? `Reason to cull ${fish.tag}` : 'Reason'}
        tabIndex={0}
      >
        {reasons.map((each, number) => (
          <ReasonChip key={each.words} reason={reason} each={each} number={number} pick={pick} />
        ))}
      </div>
      <OwnReason card={card} />
    </div>
  );
}

function ReasonChip({
  reason,
  each,
  number,
  pick,
}: {
  reason: string;
  each: Reason;
  number: number;
  pick: (chosen: Reason) => void;
}) {
  return (
    <button
      type="button"
      className={styles['chip']}
      aria-pressed={reason === each.words}
      aria-keyshortcuts={String(number + 1)}
      onClick={() => pick(each)}
    >
      <kbd className={styles['key']} aria-hidden="true">
        {number + 1}
      </kbd>
      {each.words}
    </button>
  );
}

function OwnReason({ card: { filled, fill, decide } }: { card: FishCard }) {
  const { reason, culling } = filled;
  return (
    <form
      className={styles['own']}
      onSubmit={(event) => {
        event.preventDefault();
        if (culling && reason.trim() !== '') decide('CULLED');
      }}
    >
      <TextInput
        aria-label="Reason in your words"
        placeholder="Reason in your words"
        value={reason}
        onChange={(event) => fill({ reason: event.currentTarget.value })}
        onKeyDown={(event) => event.key === 'Escape' && event.currentTarget.blur()}
      />
      {culling && (
        <>
          <Button type="submit" size="md" className="lw-danger">
            Cull
          </Button>
          <Button size="md" onClick={() => fill({ culling: false })}>
            Cancel
          </Button>
        </>
      )}
    </form>
  );
}

function Decisions({ fish, card: { decide } }: CardProps) {
  return (
    <div className={styles['decisions']} role="group" aria-label={`Decide on ${fish.tag}`}>
      {decisions.map(({ key, disposition, word }) => (
        <button
          key={key}
          type="button"
          className={styles['decision']}
          aria-label={`${word} ${fish.tag}`}
          aria-keyshortcuts={key}
          aria-pressed={fish.disposition === disposition}
          onClick={() => decide(disposition)}
        >
          {word}
        </button>
      ))}
    </div>
  );
}

function Moves({ card: { index, count, move, undo } }: { card: FishCard }) {
  return (
    <div className={styles['moves']}>
      <button
        type="button"
        className={styles['chip']}
        onClick={() => move(-1)}
        disabled={index === 0}
      >
        ← Back
      </button>
      <button type="button" className={styles['chip']} onClick={() => void undo()}>
        Undo
      </button>
      <button
        type="button"
        className={styles['chip']}
        onClick={() => move(1)}
        disabled={index === count - 1}
      >
        Next →
      </button>
    </div>
  );
}

function KeysHelp({ keysOn, onKeys }: { keysOn: boolean; onKeys: (on: boolean) => void }) {
  return (
    <p className={clsx(styles['hints'], styles['keys'], 'lw-quiet')}>
      <kbd>K</kbd> keep <kbd>H</kbd> hold <kbd>C</kbd> cull <kbd>P</kbd> place <kbd>1</kbd>–
      <kbd>9</kbd> reason <kbd>←</kbd> <kbd>→</kbd> move <kbd>U</kbd> undo <kbd>M</kbd> <kbd>F</kbd>{' '}
      <kbd>Q</kbd> <kbd>N</kbd> male, female, uncertain, unsexed <kbd>S</kbd> next score{' '}
      <label>
        <input
          type="checkbox"
          checked={keysOn}
          onChange={(event) => {
            onKeys(event.currentTarget.checked);
            event.currentTarget.blur();
          }}
        />{' '}
        keys on
      </label>
    </p>
  );
}
