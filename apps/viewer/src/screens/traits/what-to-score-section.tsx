import { Link } from 'react-router';
import type { TraitMerit, TraitMeritResult } from '../../api/merit.js';
import type { Trait } from '../../api/traits.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { adviceFor, planText, selectionText } from '../../wording/merit-advice.js';
import { scoreText } from '../../wording/scores.js';

type Brood = TraitMerit['selection']['broods'][number];

/** What would make the figures surer, and how the scored fish were chosen. */
export function WhatToScoreSection({ trait, merit }: { trait: Trait; merit: TraitMerit }) {
  const { counts, selection, result } = merit;
  const advice = adviceFor(counts, selection.broods);
  return (
    <Section title="What to score next">
      {advice.length === 0 ? (
        <p>Score a random dozen of each new brood before you sort it.</p>
      ) : (
        <ul>
          {advice.map(({ text, spawnId }) => (
            <li key={text}>
              {text}{' '}
              {spawnId !== null && <Link to={`/spawns/${spawnId}/sort`}>Go to the bench</Link>}
            </li>
          ))}
        </ul>
      )}
      {result !== null && <Narrowing result={result} />}
      {selection.broods.length > 0 && (
        <details className="lw-folded">
          <summary>How the scored fish were chosen</summary>
          <p className="lw-words">{selectionText(selection)}</p>
          {selection.notes
            .filter(({ code }) => code !== selection.warning)
            .map(({ code, message }) => (
              <p key={code} className="lw-words">
                {message}
              </p>
            ))}
          <DataTable
            caption="Broods with scored fish"
            low
            rows={selection.broods}
            rowKey={({ spawnId }) => spawnId}
            columns={broodColumns(trait)}
          />
        </details>
      )}
    </Section>
  );
}

interface NarrowingProps {
  result: TraitMeritResult;
}

/** What scores would narrow most, by the linear model: expected, whatever the scores will be. */
function Narrowing({ result: { shown, narrowing, worthScoring, leftOut } }: NarrowingProps) {
  if (narrowing.length + worthScoring.length + leftOut.length === 0) return null;
  return (
    <>
      {shown === 'THRESHOLD' && (
        <p className="lw-quiet">
          For what follows, grades are taken as numbers: how much a score will tell can be worked
          out beforehand for numbers, and not for grades taken in their order. So these figures
          differ from those above, but not the order of which scores help most.
        </p>
      )}
      <ul>
        {narrowing.map((effect) => (
          <li key={effect.plan}>{planText(effect)}</li>
        ))}
      </ul>
      {leftOut.map((sentence) => (
        <p key={sentence} className="lw-quiet">
          {sentence}
        </p>
      ))}
      {worthScoring.length > 0 && (
        <p className="lw-words">
          Worth scoring next, the most telling first:{' '}
          {worthScoring.map(({ fish }, k) => (
            <span key={fish.id}>
              {k > 0 && ', '}
              <FishLink fish={fish} />
            </span>
          ))}
          .
        </p>
      )}
    </>
  );
}

function broodColumns(trait: Trait): readonly Column<Brood>[] {
  const mean = (value: number | null): string =>
    value === null ? '–' : scoreText(value, { ...trait, kind: 'MEASURED' });
  return [
    {
      key: 'tag',
      title: 'Brood',
      cell: ({ spawnId, tag }) => <Link to={`/spawns/${spawnId}`}>{tag}</Link>,
    },
    { key: 'scored', title: 'Scored', number: true, cell: ({ scored }) => scored },
    {
      key: 'before',
      title: 'Before sorting',
      number: true,
      cell: ({ scoredBeforeSorting }) => scoredBeforeSorting,
    },
    { key: 'culled', title: 'Culled', number: true, cell: ({ culled }) => culled },
    {
      key: 'for',
      title: 'For this trait',
      number: true,
      wideOnly: true,
      cell: ({ culledForTrait }) => culledForTrait,
    },
    {
      key: 'mean',
      title: 'Mean before the cull',
      number: true,
      cell: ({ meanBeforeSorting }) => mean(meanBeforeSorting),
    },
    {
      key: 'use',
      title: 'Mean in use',
      number: true,
      wideOnly: true,
      cell: ({ meanInUse }) => mean(meanInUse),
    },
  ];
}
