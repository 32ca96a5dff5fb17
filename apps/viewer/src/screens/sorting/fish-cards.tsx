import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useEffect, useMemo, useRef, useState } from 'react';
import { DispositionMark, FishLink } from '../../components/fish-marks.js';
import { StoppedEntry } from '../../outbox/stopped-entry.js';
import { ageText, daysBetween } from '../../wording/figures.js';
import { dispositionWord, sexWord, type Disposition, type Sex } from '../../wording/words.js';
import { CullCaution } from '../fish/decide-form.js';
import { classOf, fitsAge, type BenchFish } from './bench-facts.js';
import { decisions } from './decisions.js';
import { phenotypesOf, reasonsFor, type Reason } from './reasons.js';
import { ScoreFields } from './score-fields.js';
import { readScores } from './score-sheet.js';
import type { BenchParts } from './sorting-screen.js';
import { useBenchKeys, useKeysOn } from './use-bench-keys.js';

interface FishCardsProps extends BenchParts {
  locusId: string | null;
  onLocus: (locusId: string) => void;
}

const firstUnsorted = (fish: readonly BenchFish[], from: number): number =>
  fish.findIndex((each, index) => index >= from && each.disposition === 'UNSORTED');

const sexes: { sex: Sex; key: string }[] = [
  { sex: 'MALE', key: 'm' },
  { sex: 'FEMALE', key: 'f' },
  { sex: 'UNCERTAIN', key: 'y' },
  { sex: 'UNSEXED', key: 'x' },
];

/** One fish at a time: sex, score sheet, class, reason, decision, next. */
export function FishCards({ bench, entries, on, say, locusId, onLocus }: FishCardsProps) {
  const { fish: all } = bench;
  const [currentId, setCurrentId] = useState(() => all[Math.max(0, firstUnsorted(all, 0))]?.id);
  const index = Math.max(
    0,
    all.findIndex((each) => each.id === currentId),
  );
  const fish = all[index];
  const [typed, setTyped] = useState<ReadonlyMap<string, string>>(new Map());
  const [reason, setReason] = useState('');
  const [seen, setSeen] = useState<string | null>(null);
  const [culling, setCulling] = useState(false);
  const [allTraits, setAllTraits] = useState(false);
  const [keysOn, setKeysOn] = useKeysOn();
  const scores = useRef<HTMLDivElement>(null);
  const age =
    fish === undefined || fish.hatchDate === null ? null : daysBetween(fish.hatchDate, on);
  const traits = bench.traits.filter((trait) => allTraits || fitsAge(trait, age));
  const { values, slips } = readScores(bench.traits, typed);
  const locus = bench.loci.find((each) => each.id === locusId);
  const reasons = useMemo(() => reasonsFor(bench, locus), [bench, locus]);

  const goTo = (next: number) => {
    const target = all[Math.min(Math.max(next, 0), all.length - 1)];
    if (target === undefined) return;
    setCurrentId(target.id);
    setTyped(new Map());
    setReason('');
    setSeen(null);
    setCulling(false);
  };

  const move = (step: number) => {
    if (fish !== undefined && values.size > 0 && slips.size === 0) void entries.score(fish, values);
    if (slips.size > 0) return;
    goTo(index + step);
    say(all[index + step]?.tag ?? 'No more fish this way');
  };

  const decide = (disposition: Disposition, why = reason, phenotype = seen) => {
    if (fish === undefined || slips.size > 0) return;
    const words = why.trim() === '' ? null : why.trim();
    if (disposition === 'CULLED' && words === null) {
      setCulling(true);
      say('Cull: choose a reason');
      return;
    }
    const counted = locusId === null || phenotype === null ? null : { locusId, phenotype };
    void entries.decide(fish, disposition, words, values, counted);
    const later = firstUnsorted(all, index + 1);
    const next = later === -1 ? Math.min(index + 1, all.length - 1) : later;
    say(
      `${fish.tag} ${dispositionWord[disposition]}. ${next === index ? '' : (all[next]?.tag ?? '')}`,
    );
    goTo(next);
  };

  const pick = (chosen: Reason) => {
    const phenotype = chosen.phenotype ?? seen;
    if (culling) decide('CULLED', chosen.words, phenotype);
    else {
      setReason(chosen.words);
      setSeen(phenotype);
    }
  };

  const undo = async () => {
    const undone = await entries.undo();
    say(undone === null ? 'Nothing to undo' : `Undone: ${undone.label}`);
    const at = all.findIndex((each) => each.id === undone?.subject);
    if (at >= 0) goTo(at);
  };

  useBenchKeys(
    {
      decide: (disposition) => decide(disposition),
      move,
      undo: () => void undo(),
      setSex: (sex) => fish !== undefined && void entries.setSex(fish, sex),
      pick: (number) => {
        const chosen = reasons[number - 1];
        if (chosen !== undefined) pick(chosen);
      },
      score: () => scores.current?.querySelector<HTMLElement>('input, button')?.focus(),
      escape: () => setCulling(false),
      sexes,
    },
    keysOn,
  );

  // The card is what a screen reader should be at after a move, unless something in it is being typed in.
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.scrollIntoView({ block: 'nearest' });
  }, [currentId]);

  if (fish === undefined) return null;
  const counted = locusId === null ? undefined : classOf(bench, fish, locusId);
  return (
    <div className="lw-bench">
      <article className="lw-bench-card" aria-label={`Fish ${fish.tag}`}>
        <div className="lw-bench-head">
          <h2 ref={heading}>
            <FishLink fish={{ id: fish.id, tag: fish.tag }} />
          </h2>
          <span>
            {index + 1} of {all.length}
            {age !== null && ` · ${ageText(age)}`}
          </span>
          <span>
            <DispositionMark disposition={fish.disposition} />
            {fish.dispositionReason !== null && `, ${fish.dispositionReason}`}
            {fish.waiting > 0 && (
              <span className="lw-bench-waits">
                {' '}
                waits here
                {fish.onServer !== null && `; on the server: ${dispositionWord[fish.onServer]}`}
              </span>
            )}
          </span>
        </div>
        {fish.stopped.map((entry) => (
          <StoppedEntry key={entry.id} entry={entry} />
        ))}
        <div className="lw-bench-chips" role="group" aria-label="Sex">
          {sexes.map(({ sex, key }) => (
            <button
              key={sex}
              type="button"
              className="lw-bench-chip"
              aria-pressed={fish.sex === sex}
              aria-keyshortcuts={key}
              onClick={() => fish.sex !== sex && void entries.setSex(fish, sex)}
            >
              {sexWord[sex]}
            </button>
          ))}
        </div>
        <div ref={scores}>
          <ScoreFields
            fish={fish}
            traits={traits}
            typed={typed}
            slips={slips}
            onType={(traitId, text) => setTyped((before) => new Map(before).set(traitId, text))}
          />
        </div>
        {traits.length < bench.traits.length && (
          <button type="button" className="lw-link-button" onClick={() => setAllTraits(true)}>
            {bench.traits.length - traits.length} more for other ages
          </button>
        )}
        {locus !== undefined && (
          <div className="lw-bench-chips" role="group" aria-label={`Class: ${locus.name}`}>
            {phenotypesOf(locus).map((phenotype) => (
              <button
                key={phenotype}
                type="button"
                className="lw-bench-chip"
                disabled={counted !== undefined}
                aria-pressed={(counted?.phenotype ?? seen) === phenotype}
                onClick={() => setSeen(seen === phenotype ? null : phenotype)}
              >
                {phenotype}
              </button>
            ))}
            {counted !== undefined && <span className="lw-quiet">counted</span>}
          </div>
        )}
        <NativeSelect
          label="Count a locus while sorting"
          description={
            locus === undefined
              ? undefined
              : 'Count the sound fish too: a class counted alone says nothing of the parents.'
          }
          value={locusId ?? ''}
          onChange={(event) => onLocus(event.currentTarget.value)}
          data={[
            { value: '', label: 'none' },
            ...bench.loci.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
      </article>
      <div className="lw-bench-dock">
        <div className={culling ? 'lw-bench-reasons lw-bench-asks' : 'lw-bench-reasons'}>
          {culling && (
            <>
              <strong>Cull {fish.tag}: why?</strong>
              <CullCaution />
            </>
          )}
          <div
            className="lw-bench-chips lw-bench-scroll"
            role="group"
            aria-label={culling ? `Reason to cull ${fish.tag}` : 'Reason'}
            tabIndex={0}
          >
            {reasons.map((each, number) => (
              <button
                key={each.words}
                type="button"
                className="lw-bench-chip"
                aria-pressed={reason === each.words}
                aria-keyshortcuts={String(number + 1)}
                onClick={() => pick(each)}
              >
                <kbd className="lw-bench-key" aria-hidden="true">
                  {number + 1}
                </kbd>
                {each.words}
              </button>
            ))}
          </div>
          <form
            className="lw-bench-own"
            onSubmit={(event) => {
              event.preventDefault();
              if (culling && reason.trim() !== '') decide('CULLED');
            }}
          >
            <TextInput
              aria-label="Reason in your words"
              placeholder="Reason in your words"
              value={reason}
              onChange={(event) => setReason(event.currentTarget.value)}
              onKeyDown={(event) => event.key === 'Escape' && event.currentTarget.blur()}
            />
            {culling && (
              <>
                <Button type="submit" size="md" className="lw-danger">
                  Cull
                </Button>
                <Button size="md" onClick={() => setCulling(false)}>
                  Not now
                </Button>
              </>
            )}
          </form>
        </div>
        {!culling && (
          <div className="lw-bench-decisions" role="group" aria-label={`Decide on ${fish.tag}`}>
            {decisions.map(({ key, disposition, word }) => (
              <button
                key={key}
                type="button"
                className={`lw-bench-decision lw-bench-${disposition.toLowerCase()}`}
                aria-label={`${word} ${fish.tag}`}
                aria-keyshortcuts={key}
                aria-pressed={fish.disposition === disposition}
                onClick={() => decide(disposition)}
              >
                {word}
              </button>
            ))}
          </div>
        )}
        <div className="lw-bench-moves">
          <button
            type="button"
            className="lw-bench-chip"
            onClick={() => move(-1)}
            disabled={index === 0}
          >
            ← Back
          </button>
          <button type="button" className="lw-bench-chip" onClick={() => void undo()}>
            Undo
          </button>
          <button
            type="button"
            className="lw-bench-chip"
            onClick={() => move(1)}
            disabled={index === all.length - 1}
          >
            Next →
          </button>
        </div>
        <p className="lw-keys lw-quiet lw-bench-keys">
          <kbd>K</kbd> keep <kbd>H</kbd> hold <kbd>C</kbd> cull <kbd>P</kbd> place <kbd>1</kbd>–
          <kbd>9</kbd> reason <kbd>←</kbd> <kbd>→</kbd> move <kbd>U</kbd> undo <kbd>M</kbd>{' '}
          <kbd>F</kbd> <kbd>Y</kbd> <kbd>X</kbd> sex <kbd>S</kbd> scores{' '}
          <label>
            <input
              type="checkbox"
              checked={keysOn}
              onChange={(event) => {
                setKeysOn(event.currentTarget.checked);
                event.currentTarget.blur();
              }}
            />{' '}
            keys on
          </label>
        </p>
      </div>
    </div>
  );
}
