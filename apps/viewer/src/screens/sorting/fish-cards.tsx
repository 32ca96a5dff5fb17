import { NativeSelect } from '@mantine/core';
import { useEffect, useRef } from 'react';
import { FishFace } from '../../components/fish-face.js';
import { DispositionMark, FishLink } from '../../components/fish-marks.js';
import { StoppedEntry } from '../../outbox/stopped-entry.js';
import { ageText } from '../../wording/figures.js';
import { dispositionWord, sexWord, type Sex } from '../../wording/words.js';
import { PlacingCaution } from '../fish/decision-cautions.js';
import { classOf, type Bench, type BenchFish } from './bench-facts.js';
import { FishCardDock } from './fish-card-dock.js';
import { KeepingLines, LastCarrierInHand } from './keeping-lines.js';
import { PassesOnLines } from './passes-on-lines.js';
import { phenotypesOf } from './reasons.js';
import { ScoreFields } from './score-fields.js';
import { FaultChips, LookNote, SheetChoice } from './sheet-look-fields.js';
import { useBenchKeys, useKeysOn } from './use-bench-keys.js';
import { useFishCard, type FishCard, type FishCardsProps } from './use-fish-card.js';
import { useScoreSteps } from './use-score-steps.js';
import styles from './sorting.module.css';
import type { BenchEntries } from './use-bench-entries.js';

const sexes: { sex: Sex; key: string }[] = [
  { sex: 'MALE', key: 'm' },
  { sex: 'FEMALE', key: 'f' },
  { sex: 'UNCERTAIN', key: 'q' },
  { sex: 'UNSEXED', key: 'n' },
];

/** Keys for the fish in hand. */
function useCardKeys(card: FishCard, entries: BenchEntries, nextScore: () => void) {
  const { fish, reasons, fill } = card;
  const [keysOn, setKeysOn] = useKeysOn();
  useBenchKeys(
    {
      decide: card.decide,
      move: card.move,
      undo: () => void card.undo(),
      setSex: (sex) => fish !== undefined && void entries.setSex(fish, sex),
      pick: (number) => {
        const chosen = reasons[number - 1];
        if (chosen !== undefined) card.pick(chosen);
      },
      score: nextScore,
      escape: () => fill({ culling: false }),
      sexes,
    },
    keysOn,
  );
  return { keysOn, onKeys: setKeysOn };
}

/** One fish at a time: sex, scores or a score sheet, class, reason, decision, next. */
export function FishCards(props: FishCardsProps) {
  const { bench, entries, keeping } = props;
  const card = useFishCard(props);
  const { fish } = card;
  const steps = useScoreSteps(fish?.id);
  const keys = useCardKeys(card, entries, steps.next);
  if (fish === undefined) return null;
  return (
    <>
      <div className={styles['bench']}>
        <article className={styles['card']} aria-label={`Fish ${fish.tag}`}>
          <CardHead fish={fish} card={card} />
          {fish.stopped.map((entry) => (
            <StoppedEntry key={entry.id} entry={entry} />
          ))}
          <SexChips fish={fish} entries={entries} />
          <SheetInHand card={card} sheets={bench.sheets} onSheet={props.onSheet} />
          <div className={styles['scores']} ref={steps.ref} onFocus={steps.onFocus}>
            <Scores bench={bench} fish={fish} card={card} />
          </div>
          <ClassChips bench={bench} fish={fish} card={card} />
          <LocusChoice card={card} locusId={props.locusId} onLocus={props.onLocus} bench={bench} />
          <GoToFish bench={bench} fish={fish} card={card} />
          <PlacingCaution />
        </article>
        <FishCardDock fish={fish} card={card} {...keys}>
          <LastCarrierInHand fish={fish} read={keeping} />
        </FishCardDock>
      </div>
      <KeepingLines fish={fish} read={keeping} />
      <PassesOnLines fish={fish} />
    </>
  );
}

interface SheetInHandProps {
  card: FishCard;
  sheets: Bench['sheets'];
  onSheet: (sheetId: string) => void;
}

function SheetInHand({ card: { sheet, age, left }, sheets, onSheet }: SheetInHandProps) {
  return (
    <>
      <SheetChoice sheets={sheets} sheet={sheet} age={age} onSheet={onSheet} />
      {left !== null && (
        <p className="lw-field-error" role="alert">
          {left}
        </p>
      )}
    </>
  );
}

interface CardPartProps {
  fish: BenchFish;
  card: FishCard;
}

function LocusChoice({
  card,
  locusId,
  onLocus,
  bench,
}: {
  card: FishCard;
  locusId: string | null;
  onLocus: (locusId: string) => void;
  bench: Bench;
}) {
  return (
    <NativeSelect
      label="Count by one locus while sorting"
      description={
        card.locus === undefined
          ? undefined
          : 'Count the sound fish too: one class alone says nothing about the parents.'
      }
      value={locusId ?? ''}
      onChange={(event) => onLocus(event.currentTarget.value)}
      data={[
        { value: '', label: 'none' },
        ...bench.loci.map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  );
}

function SexChips({ fish, entries }: { fish: BenchFish; entries: BenchEntries }) {
  return (
    <div className={styles['chips']} role="group" aria-label="Sex">
      {sexes.map(({ sex, key }) => (
        <button
          key={sex}
          type="button"
          className={styles['chip']}
          aria-pressed={fish.sex === sex}
          aria-keyshortcuts={key}
          onClick={() => fish.sex !== sex && void entries.setSex(fish, sex)}
        >
          {sexWord[sex]}
        </button>
      ))}
    </div>
  );
}

function CardHead({ fish, card: { index, count, age } }: CardPartProps) {
  // The card is what a screen reader should be at after a move, unless something in it is being typed in.
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.scrollIntoView({ block: 'nearest' });
  }, [fish.id]);
  return (
    <div className={styles['head']}>
      <FishFace fish={fish} size="card" />
      <h2 ref={heading}>
        <FishLink fish={{ id: fish.id, tag: fish.tag }} />
      </h2>
      <span>
        {index + 1} of {count}
        {age !== null && ` · ${ageText(age)}`}
      </span>
      <span>
        <DispositionMark disposition={fish.disposition} />
        {fish.dispositionReason !== null && `, ${fish.dispositionReason}`}
        {fish.waiting > 0 && (
          <span className={styles['waits']}>
            {' '}
            waits here
            {fish.onServer !== null && `; on the server: ${dispositionWord[fish.onServer]}`}
          </span>
        )}
      </span>
    </div>
  );
}

/** Any fish of a large brood without passing all those between. */
function GoToFish({ bench, fish, card }: ScoresProps) {
  if (bench.fish.length < 2) return null;
  return (
    <NativeSelect
      label="Go to fish"
      value={fish.id}
      onChange={(event) => card.goToFish(event.currentTarget.value)}
      data={bench.fish.map(({ id, tag, disposition }) => ({
        value: id,
        label: disposition === 'UNSORTED' ? tag : `${tag}, ${dispositionWord[disposition]}`,
      }))}
    />
  );
}

interface ScoresProps extends CardPartProps {
  bench: Bench;
}

/** The sheet's traits, faults and note; or the plain list of traits that say something at this age. */
function Scores({ bench, fish, card }: ScoresProps) {
  const { sheet, traits, filled, fill, type, slips } = card;
  const fields = { fish, typed: filled.typed, slips, onType: type };
  if (sheet === null) {
    return (
      <>
        <ScoreFields {...fields} traits={traits} />
        {traits.length < bench.traits.length && (
          <button type="button" className="lw-link-button" onClick={card.showAllTraits}>
            {bench.traits.length - traits.length} more for other ages
          </button>
        )}
      </>
    );
  }
  return (
    <>
      <ScoreFields {...fields} traits={card.sheetTraits} />
      {traits.length > 0 && <p className="lw-quiet">Not on this sheet, saved beside it:</p>}
      <ScoreFields {...fields} traits={traits} />
      <FaultChips sheet={sheet} seen={filled.faultIds} onToggle={card.toggleFault} />
      <LookNote
        note={filled.note}
        alone={filled.noteAlone}
        onNote={(note) => fill({ note, noteAlone: false })}
      />
    </>
  );
}

function ClassChips({ bench, fish, card: { locus, filled, fill } }: ScoresProps) {
  if (locus === undefined) return null;
  const counted = classOf(bench, fish, locus.id);
  const { seen } = filled;
  return (
    <div className={styles['chips']} role="group" aria-label={`Class: ${locus.name}`}>
      {phenotypesOf(locus).map((phenotype) => (
        <button
          key={phenotype}
          type="button"
          className={styles['chip']}
          disabled={counted !== undefined}
          aria-pressed={(counted?.phenotype ?? seen) === phenotype}
          onClick={() => fill({ seen: seen === phenotype ? null : phenotype })}
        >
          {phenotype}
        </button>
      ))}
      {counted !== undefined && <span className="lw-quiet">counted</span>}
    </div>
  );
}
