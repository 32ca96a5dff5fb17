import { clsx } from 'clsx';
import { NativeSelect, TextInput } from '@mantine/core';
import { useState } from 'react';
import { StoppedEntry } from '../../outbox/stopped-entry.js';
import { CullCaution, PlacingCaution } from '../fish/decision-cautions.js';
import type { BenchTrait } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';
import { SortingRow } from './sorting-row.js';
import type { BenchPlaceKept } from './use-bench-place.js';
import { useSortingList, type ListReason } from './use-sorting-list.js';
import styles from './sorting.module.css';

interface SortingListProps extends BenchParts {
  place: BenchPlaceKept;
  dateError: string | null;
  onDate: (on: string) => void;
}

/** All fish in a table, for a desk: one row a fish, one key a decision, one trait scored down the column. */
export function SortingList(props: SortingListProps) {
  const { fish, traits } = props.bench;
  const list = useSortingList(props);
  const [traitId, setTraitId] = useState('');
  const trait = traits.find((each) => each.id === traitId);
  return (
    <>
      <div className="lw-filter">
        <DateField {...props} />
        <ReasonField reason={list.reason} />
        <TraitChoice traits={traits} traitId={traitId} onChoose={setTraitId} />
      </div>
      <KeyHints />
      <CullCaution />
      <PlacingCaution />
      {fish
        .flatMap((each) => each.stopped)
        .map((entry) => (
          <StoppedEntry key={entry.id} entry={entry} />
        ))}
      <div className="lw-table-frame">
        <table className="lw-table">
          <caption className="lw-heard">Fish to sort</caption>
          <SortingHead trait={trait} />
          <tbody ref={list.rows.body}>
            {fish.map((each, index) => (
              <SortingRow key={each.id} {...{ each, index, list, trait }} entries={props.entries} />
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function DateField({ on, dateError, onDate }: SortingListProps) {
  return (
    <TextInput
      label="Date"
      type="date"
      value={on}
      error={dateError}
      onChange={(event) => onDate(event.currentTarget.value)}
    />
  );
}

function ReasonField({ reason: { reason, setReason, missing, input } }: { reason: ListReason }) {
  return (
    <TextInput
      ref={input}
      className="lw-filter-text"
      label="Reason"
      description="Goes with each decision; needed for culls."
      value={reason}
      error={missing ? 'Type the reason, then cull.' : undefined}
      onChange={(event) => setReason(event.currentTarget.value)}
    />
  );
}

interface TraitChoiceProps {
  traits: readonly BenchTrait[];
  traitId: string;
  onChoose: (traitId: string) => void;
}

function TraitChoice({ traits, traitId, onChoose }: TraitChoiceProps) {
  return (
    <NativeSelect
      label="Trait to score"
      value={traitId}
      onChange={(event) => onChoose(event.currentTarget.value)}
      data={[
        { value: '', label: 'none' },
        ...traits.map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  );
}

function KeyHints() {
  return (
    <p className={clsx(styles['hints'], 'lw-quiet')}>
      On a row: <kbd>K</kbd> keep, <kbd>H</kbd> hold, <kbd>C</kbd> cull, <kbd>P</kbd> place,{' '}
      <kbd>U</kbd> undo, <kbd>↑</kbd> <kbd>↓</kbd> move. In a score box: <kbd>Enter</kbd> saves and
      goes down.
    </p>
  );
}

function SortingHead({ trait }: { trait: BenchTrait | undefined }) {
  return (
    <thead>
      <tr>
        <th scope="col">Tag</th>
        <th scope="col" className="lw-wide">
          Sex
        </th>
        <th scope="col" className="lw-wide">
          Now
        </th>
        <th scope="col">Decide</th>
        {trait !== undefined && (
          <th scope="col" className="lw-number">
            {trait.name}
            {trait.unit === null ? '' : `, ${trait.unit}`}
          </th>
        )}
      </tr>
    </thead>
  );
}
