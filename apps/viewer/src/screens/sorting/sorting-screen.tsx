import { NativeSelect, TextInput } from '@mantine/core';
import { useCallback, useRef, useState, type KeyboardEvent } from 'react';
import { Link, useParams } from 'react-router';
import { DECIDE_FISH, RECORD_SCORES } from '../../api/fish.js';
import { SPAWN_FISH, type SpawnFish } from '../../api/spawns.js';
import { TRAITS, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { plural, today } from '../../wording/figures.js';
import { rangeText, scoreText } from '../../wording/scores.js';
import type { Disposition } from '../../wording/words.js';
import { CullCaution } from '../fish/decide-form.js';

const decisions: readonly { key: string; disposition: Disposition; word: string }[] = [
  { key: 'k', disposition: 'KEEPER', word: 'Keep' },
  { key: 'h', disposition: 'HOLD', word: 'Hold' },
  { key: 'c', disposition: 'CULLED', word: 'Cull' },
  { key: 'p', disposition: 'PLACED', word: 'Place' },
];

/** Sorting a brood fast: one row a fish, one key a decision, one trait scored down the column. */
export function SortingScreen() {
  const { id = '' } = useParams();
  const read = useRead(SPAWN_FISH, { id });
  const traits = useRead(TRAITS, {});
  return (
    <Shown read={read} what="the fish">
      {({ spawn }) => (
        <Screen
          title={`Sort spawn ${spawn.tag}`}
          lead={
            <>
              {plural(spawn.fish.length, 'fish', 'fish')} ·{' '}
              <Link to={`/spawns/${spawn.id}`}>back to the spawn</Link>
            </>
          }
        >
          {spawn.fish.length === 0 ? (
            <Empty action={<Link to={`/spawns/${spawn.id}`}>Back to the spawn</Link>}>
              No fish of this spawn has a record yet. Add jarred fish on the spawn’s page first.
            </Empty>
          ) : (
            <SortingTable fish={spawn.fish} traits={traits.data?.traits ?? []} />
          )}
        </Screen>
      )}
    </Shown>
  );
}

function SortingTable({ fish, traits }: { fish: readonly SpawnFish[]; traits: readonly Trait[] }) {
  const [on, setOn] = useState(today());
  const [reason, setReason] = useState('');
  const [reasonMissing, setReasonMissing] = useState(false);
  const [traitId, setTraitId] = useState('');
  const [current, setCurrent] = useState(0);
  const [said, setSaid] = useState('');
  const body = useRef<HTMLTableSectionElement>(null);
  const reasonInput = useRef<HTMLInputElement>(null);
  const { save, problem } = useSave(DECIDE_FISH);
  const trait = traits.find((each) => each.id === traitId);

  const focusRow = useCallback((index: number) => {
    const row = body.current?.children[index];
    if (row instanceof HTMLElement) row.focus();
  }, []);

  const decide = async (index: number, disposition: Disposition) => {
    const each = fish[index];
    if (each === undefined) return;
    const why = reason.trim();
    if (disposition === 'CULLED' && why === '') {
      setReasonMissing(true);
      reasonInput.current?.focus();
      return;
    }
    setReasonMissing(false);
    const input = {
      id: each.id,
      disposition,
      on,
      reason: why === '' ? null : why,
      revision: each.revision,
    };
    if ((await save({ input })) !== null) {
      setSaid(
        `${each.tag}: ${decisions.find((one) => one.disposition === disposition)?.word ?? ''}`,
      );
      focusRow(Math.min(index + 1, fish.length - 1));
    }
  };

  const onKey = (event: KeyboardEvent<HTMLTableRowElement>, index: number) => {
    // Typing a score must not decide.
    if (event.target !== event.currentTarget) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const decision = decisions.find((each) => each.key === event.key.toLowerCase());
    if (event.key === 'ArrowDown') focusRow(index + 1);
    else if (event.key === 'ArrowUp') focusRow(index - 1);
    else if (decision !== undefined) void decide(index, decision.disposition);
    else return;
    event.preventDefault();
  };

  return (
    <>
      <div className="lw-filter">
        <TextInput
          label="Date"
          type="date"
          value={on}
          onChange={(event) => setOn(event.currentTarget.value)}
        />
        <TextInput
          ref={reasonInput}
          className="lw-filter-text"
          label="Reason"
          description="Goes with each decision; needed for culls."
          value={reason}
          error={reasonMissing ? 'Type the reason, then cull.' : undefined}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        <NativeSelect
          label="Trait to score"
          value={traitId}
          onChange={(event) => setTraitId(event.currentTarget.value)}
          data={[
            { value: '', label: 'none' },
            ...traits.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
      </div>
      <p className="lw-keys lw-quiet">
        On a row: <kbd>K</kbd> keep, <kbd>H</kbd> hold, <kbd>C</kbd> cull, <kbd>P</kbd> place,{' '}
        <kbd>↑</kbd> <kbd>↓</kbd> move. In a score box: <kbd>Enter</kbd> saves and goes down.
      </p>
      <CullCaution />
      <ProblemNotice problem={problem} />
      <p className="lw-heard" role="status">
        {said}
      </p>
      <div className="lw-table-frame">
        <table className="lw-table lw-sorting">
          <caption className="lw-heard">Fish to sort</caption>
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
          <tbody ref={body}>
            {fish.map((each, index) => (
              <tr
                key={each.id}
                tabIndex={index === current ? 0 : -1}
                aria-label={each.tag}
                className={index === current ? 'lw-current' : undefined}
                onFocus={() => setCurrent(index)}
                onKeyDown={(event) => onKey(event, index)}
              >
                <td>
                  <FishLink fish={{ id: each.id, tag: each.tag }} />
                </td>
                <td className="lw-wide">
                  <SexMark sex={each.sex} />
                </td>
                <td className="lw-wide">
                  <DispositionMark disposition={each.disposition} />
                </td>
                <td>
                  <span className="lw-row-buttons">
                    {decisions.map(({ disposition, word }) => (
                      <button
                        key={disposition}
                        type="button"
                        aria-pressed={each.disposition === disposition}
                        aria-label={`${word} ${each.tag}`}
                        onClick={() => void decide(index, disposition)}
                      >
                        {word}
                      </button>
                    ))}
                  </span>
                </td>
                {trait !== undefined && (
                  <td className="lw-number">
                    <ScoreCell key={trait.id} fish={each} trait={trait} on={on} />
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function focusNextScore(from: HTMLInputElement) {
  const cells = [...(from.closest('tbody')?.querySelectorAll<HTMLInputElement>('input') ?? [])];
  cells[cells.indexOf(from) + 1]?.focus();
}

function ScoreCell({ fish, trait, on }: { fish: SpawnFish; trait: Trait; on: string }) {
  const latest = fish.latestScores.find((score) => score.trait.id === trait.id);
  const [text, setText] = useState('');
  const [slip, setSlip] = useState<string | null>(null);
  const { save, problem } = useSave(RECORD_SCORES);
  // Enter saves and moves on, and leaving the box saves too: what was typed must be sent once.
  const typed = useRef('');
  const type = (next: string) => {
    typed.current = next;
    setText(next);
  };
  const keep = async (): Promise<boolean> => {
    const given = typed.current.trim();
    if (given === '') return true;
    const value = Number(given.replace(',', '.'));
    const low = trait.minimum ?? -Infinity;
    const high = trait.maximum ?? Infinity;
    if (!Number.isFinite(value) || value < low || value > high) {
      setSlip(`Give a number ${rangeText(trait)}.`);
      return false;
    }
    setSlip(null);
    const input = { fishId: fish.id, scoredOn: on, entries: [{ traitId: trait.id, value }] };
    typed.current = '';
    if ((await save({ input })) === null) {
      typed.current = given;
      return false;
    }
    setText('');
    return true;
  };
  return (
    <>
      <span className="lw-quiet">
        {latest === undefined ? '' : `${scoreText(latest.value, trait)} `}
      </span>
      <input
        className="lw-cell-input"
        inputMode="decimal"
        aria-label={`${trait.name} of ${fish.tag}`}
        aria-invalid={slip !== null}
        value={text}
        onChange={(event) => type(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          const input = event.currentTarget;
          void keep().then((kept) => {
            if (kept) focusNextScore(input);
          });
        }}
        onBlur={() => void keep()}
      />
      {(slip !== null || problem !== null) && (
        <span className="lw-field-error" role="alert">
          {' '}
          {slip ?? problem?.message}
        </span>
      )}
    </>
  );
}
