import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { useParams } from 'react-router';
import { TRAIT_RELIABILITY, type TraitReliability } from '../../api/score-sheets.js';
import { TRAITS, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { RepeatDots, ScorerDifferences } from '../../drawings/index.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { plainNumber, plural, span } from '../../wording/figures.js';
import { rangeText } from '../../wording/scores.js';
import { windowText } from '../../wording/sheet-words.js';
import { traitKindWord } from '../../wording/words.js';
import type { Column } from '../../components/data-table.js';
import { TraitMeritSections } from './trait-merit.js';

const windows = [
  { value: '0', label: 'the same day' },
  { value: '3', label: '3 days' },
  { value: '14', label: '14 days' },
  { value: '30', label: '30 days' },
];

/** One trait: what it means, how well its scores repeat, and how far scorers agree. */
export function TraitScreen() {
  const { id = '' } = useParams();
  const read = useRead(TRAITS, { includeWithdrawn: true });
  const trait = read.data?.traits.find((one) => one.id === id);
  if (trait === undefined) {
    return (
      <Screen title="Trait">
        <Shown read={read} what="the trait">
          {() => (
            <Empty>
              There is no trait with this address: it may belong to another installation.
            </Empty>
          )}
        </Shown>
      </Screen>
    );
  }
  return <TraitPage key={id} trait={trait} />;
}

function TraitPage({ trait }: { trait: Trait }) {
  const [windowDays, setWindowDays] = useState('14');
  const read = useRead(TRAIT_RELIABILITY, { traitId: trait.id, windowDays: Number(windowDays) });
  return (
    <Screen title={trait.name} lead={trait.description ?? undefined}>
      <div className="lw-columns">
        <MeaningSection trait={trait} />
        <Section title="Repeatability">
          <NativeSelect
            label="Scores count as repeats within"
            description="Fish grow and change: scores further apart show that instead."
            value={windowDays}
            data={windows}
            onChange={(event) => setWindowDays(event.currentTarget.value)}
          />
          <Shown read={read} what="the repeats">
            {({ traitReliability }) => (
              <RepeatabilityShown answer={traitReliability} trait={trait} />
            )}
          </Shown>
        </Section>
      </div>
      <TraitMeritSections trait={trait} />
      {read.data !== undefined && <Repeats answer={read.data.traitReliability} trait={trait} />}
      <HistoryPanel recordKind="TRAIT" recordId={trait.id} />
    </Screen>
  );
}

const twoPlaces = (value: number) => value.toFixed(2);

function MeaningSection({ trait }: { trait: Trait }) {
  return (
    <Section title="Meaning">
      <Facts
        facts={[
          { name: 'Kind', value: traitKindWord[trait.kind] },
          { name: 'Range', value: [rangeText(trait), trait.unit].filter(Boolean).join(' ') },
          {
            name: 'Grades',
            value: trait.grades
              .map((grade) => `${grade.name} from ${plainNumber(grade.from)}`)
              .join(', '),
          },
          { name: 'Scored at', value: windowText(trait.fromAgeDays, trait.toAgeDays) },
          { name: 'Version', value: trait.version },
        ]}
      />
    </Section>
  );
}

function RepeatabilityShown({ answer, trait }: { answer: TraitReliability; trait: Trait }) {
  const { repeatability: figure, tooFew } = answer;
  const unit = trait.unit === null ? '' : ` ${trait.unit}`;
  return (
    <>
      <RepeatabilityFigure figure={figure} trait={trait} unit={unit} />
      {tooFew !== null && (
        <div className="lw-notice lw-notice-caution" role="note">
          <strong>Too few. </strong>
          {tooFew}
        </div>
      )}
      <p className="lw-quiet">
        {plural(answer.fishRepeated, 'fish', 'fish')} of {answer.fishScored} scored more than once
        within the window, under version {answer.traitVersion}
        {answer.otherVersions > 0 &&
          `; ${plural(answer.otherVersions, 'score')} of older versions not counted`}
        .
      </p>
    </>
  );
}

interface RepeatabilityFigureProps {
  figure: NonNullable<TraitReliability['repeatability']> | null;
  trait: Trait;
  unit: string;
}

function RepeatabilityFigure({ figure, trait, unit }: RepeatabilityFigureProps) {
  return (
    figure !== null && (
      <Why
        about={`repeatability of ${trait.name}`}
        figure={`r ${twoPlaces(figure.repeatability)} (95 %: ${twoPlaces(figure.interval.low)} to ${twoPlaces(figure.interval.high)}${figure.approximate ? ', about' : ''})`}
      >
        <p>
          Intraclass correlation by one-way analysis of variance (Sokal &amp; Rohlf 1995; Lessells
          &amp; Boag 1987): {figure.fish} fish with {figure.scores} scores, n₀{' '}
          {plainNumber(figure.meanScores)}. Mean square between fish{' '}
          {plainNumber(figure.meanSquareBetween)}, within fish{' '}
          {plainNumber(figure.meanSquareWithin)}; variance between fish{' '}
          {plainNumber(figure.varianceBetween)}. Repeats of one fish differ by about{' '}
          {plainNumber(Math.sqrt(figure.meanSquareWithin))}
          {unit} (standard deviation).
        </p>
        <p>
          1 would mean that repeats never differ; 0 that one score tells nothing about the fish. It
          limits what selection on single scores can do. Differences between scorers lower it.
          {figure.approximate &&
            ' Fish were scored unequally often, so the interval is approximate.'}
        </p>
      </Why>
    )
  );
}

function Repeats({ answer, trait }: { answer: TraitReliability; trait: Trait }) {
  const scorers = [...new Set(answer.scores.map((score) => score.scorer))].sort();
  const unit = trait.unit ?? '';
  if (answer.scores.length === 0) return null;
  const drawn = new Set(answer.scores.map((score) => score.fishId)).size;
  return (
    <div className="lw-columns">
      <Section
        title="Repeats"
        aside={
          drawn < answer.fishRepeated
            ? `one row per fish, the ${drawn} of ${answer.fishRepeated} scored most often`
            : 'one row per fish'
        }
      >
        <RepeatDots
          title={`Repeated scores of ${trait.name}`}
          scorers={scorers}
          words={(value) => `${plainNumber(value)}${unit === '' ? '' : ` ${unit}`}`}
          dots={answer.scores.map(({ scoredOn, ...dot }) => ({ ...dot, on: scoredOn }))}
        />
      </Section>
      <Section title="Scorers">
        {answer.scorers.length === 0 ? (
          <Empty>
            No fish was scored by two people within the window, so scorers cannot be compared.
          </Empty>
        ) : (
          <ScorersCompared answer={answer} unit={unit} title={trait.name} />
        )}
      </Section>
    </div>
  );
}

interface ScorersComparedProps {
  answer: TraitReliability;
  unit: string;
  title: string;
}

function ScorersCompared({ answer, unit, title }: ScorersComparedProps) {
  const few = answer.scorers.some((pair) => pair.fish < 5);
  return (
    <>
      <ScorerDifferences
        title={`Differences between scorers of ${title}`}
        unit={unit}
        pairs={answer.scorers}
      />
      <DataTable
        caption="Scorers pair by pair"
        rows={answer.scorers}
        rowKey={(pair) => `${pair.first} ${pair.second}`}
        columns={scorerColumns(unit)}
      />
      <p className="lw-quiet">
        On fish that both scored; a scorer who looked twice counts by the mean. An interval that
        does not include 0 shows a real difference
        {answer.scorers.length > 1 && ', though among several pairs one may do so by chance'}.
        {few && ' Fewer than five fish in common say little.'}
      </p>
    </>
  );
}

function scorerColumns(unit: string): readonly Column<TraitReliability['scorers'][number]>[] {
  return [
    { key: 'pair', title: 'Scorers', cell: (pair) => `${pair.first} minus ${pair.second}` },
    { key: 'fish', title: 'Fish', number: true, cell: (pair) => pair.fish },
    {
      key: 'difference',
      title: 'Mean difference',
      number: true,
      cell: (pair) => `${plainNumber(pair.difference)}${unit === '' ? '' : ` ${unit}`}`,
    },
    {
      key: 'interval',
      title: '95 %',
      number: true,
      cell: (pair) =>
        pair.interval === null
          ? 'one fish only'
          : span(plainNumber(pair.interval.low), plainNumber(pair.interval.high)),
    },
  ];
}
