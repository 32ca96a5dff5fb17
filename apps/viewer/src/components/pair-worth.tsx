import type { PairBasis, PairWorth } from '../api/judgement.js';
import { percent } from '../wording/figures.js';
import { scoreText } from '../wording/scores.js';
import {
  broodFiguresText,
  errorsText,
  inbreedingCostText,
  pointsText,
  WORTH_MEANING,
} from '../wording/worth-words.js';
import { DataTable } from './data-table.js';

/** What a pair's worth is the sum of. */
export function WorthParts({ worth }: { worth: PairWorth }) {
  return (
    <DataTable
      caption="What the worth is made of"
      rows={partsOf(worth)}
      rowKey={({ name }) => name}
      columns={[
        { key: 'name', title: 'Part', cell: ({ name }) => name },
        { key: 'expected', title: 'Expected', cell: ({ expected }) => expected },
        { key: 'points', title: 'Points', number: true, cell: ({ points }) => points },
      ]}
    />
  );
}

interface Part {
  readonly name: string;
  readonly expected: string;
  readonly points: string;
}

/** By trait, by look, then what choosing adds and what F takes. */
export function partsOf({ traits, looks, choice, inbreeding, raised }: PairWorth): Part[] {
  return [
    ...traits.map(({ trait, mean, lineMean, points }) => ({
      name: trait.name,
      expected: `mean ${meanScore(mean, trait)}; the line ${meanScore(lineMean, trait)}`,
      points: pointsText(points),
    })),
    ...looks.map(({ label, wanted, share, points }) => ({
      name: `${label}, ${wanted ? 'wanted' : 'not wanted'}`,
      expected: share === null ? 'not known' : `${percent(share, 0)} of the young`,
      points: points === null ? 'not counted' : pointsText(points),
    })),
    {
      name: 'choosing the best of the brood',
      expected: `out of ${Math.round(raised)} raised`,
      points: pointsText(choice),
    },
    { name: 'inbreeding', expected: '', points: pointsText(inbreeding) },
  ];
}

/** A mean lies between the scores: it is never a grade or a yes. */
export const meanScore = (value: number, trait: PairWorth['traits'][number]['trait']): string =>
  scoreText(Number(value.toFixed(1)), { ...trait, kind: 'MEASURED', grades: [] });

/** What worth means and what it is reckoned with. */
export function WorthBasis({ basis }: { basis: PairBasis }) {
  return (
    <>
      <p className="lw-words">{WORTH_MEANING}</p>
      <p className="lw-words">
        {broodFiguresText(basis)} {inbreedingCostText(basis)}
      </p>
      {basis.notCounted.map(({ trait, reason }) => (
        <p key={trait.id} className="lw-caution">
          {trait.name} is not counted: {reason}
        </p>
      ))}
      <p className="lw-quiet">
        Traits are taken as independent of each other, also where a trait’s page shows that two are
        inherited together: of two that go together the worth of a brood varies more than is said
        here, of two that go against each other less. The two parents’ genotypes are taken as
        independent of one another. {errorsText(basis)}
      </p>
    </>
  );
}
