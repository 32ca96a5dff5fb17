import type { Trend } from '../api/merit.js';
import { DataTable, type Column } from '../components/data-table.js';
import { Empty } from '../components/states.js';
import { Why } from '../components/why.js';
import { TraitTrend } from '../drawings/index.js';
import { ageText, percent, plainNumber } from '../wording/figures.js';
import { meritScale } from '../wording/merit-scale.js';
import { movedBetween, movedText, partText, signedText, sizeText } from '../wording/merit-words.js';
import type { TraitKind } from '../wording/words.js';
import { drawnGenerations, type GenerationOfTrend } from './drawn-generations.js';

export interface TrendTrait {
  readonly name: string;
  readonly kind: TraitKind;
  readonly unit: string | null;
  readonly higherIsBetter: boolean | null;
}

interface TraitTrendShownProps {
  trait: TrendTrait;
  lineCode: string;
  trend: Pick<
    Trend,
    'generations' | 'realisedHeritability' | 'realisedHeritabilityError' | 'generationInterval'
  >;
}

/** Is a line moving in a trait? A picture first, a sentence, and the figures behind them. */
export function TraitTrendShown({ trait, lineCode, trend }: TraitTrendShownProps) {
  const { generations, realisedHeritability, generationInterval } = trend;
  const { unit, factor } = meritScale(trait);
  const drawn = drawnGenerations(generations, factor);
  const moved = movedBetween(drawn.flatMap(({ value }) => (value === null ? [] : [value])));
  if (moved === null) {
    return (
      <Empty>
        Line {lineCode} has scored fish of one generation only: score its young, or their parents,
        on {trait.name} to see whether it moves.
      </Empty>
    );
  }
  return (
    <>
      <TraitTrend
        title={`${trait.name} of line ${lineCode}, generation by generation`}
        generations={drawn}
        change={(value) => signedText(value, unit, moved.giveOrTake)}
        words={(value) =>
          value < 0
            ? signedText(value, unit, moved.giveOrTake)
            : sizeText(value, unit, moved.giveOrTake)
        }
        bandPercent={95}
        unit={unit ?? ''}
      />
      <Why
        about={`line ${lineCode} moves in ${trait.name}`}
        figure={movedText(moved, unit, trait.higherIsBetter)}
      >
        <p>
          Mean scores move with seasons, food and scorers as well; means of what the fish pass on do
          not, as far as the model knows them. Expected: what the parents stood above their own
          generation, times the heritability (the breeder’s equation, Falconer &amp; Mackay 1996,
          chapter 11). The change from first to last generation counts as sure only beyond what is
          unknown of both.
        </p>
        {realisedHeritability !== null && (
          <p>{realisedText(realisedHeritability, trend.realisedHeritabilityError)}</p>
        )}
        {generationInterval !== null && (
          <p>A generation takes {ageText(Math.round(generationInterval))} here.</p>
        )}
        <DataTable
          caption="What the change cost in diversity"
          rows={generations}
          rowKey={({ generation }) => String(generation)}
          columns={costColumns()}
        />
      </Why>
    </>
  );
}

function realisedText(value: number, standardError: number | null): string {
  const figure = plainNumber(100 * value, 0);
  const error = standardError === null ? '' : `, give or take ${partText(2 * standardError)}`;
  return `Of what parents stood out by, ${figure} % came in their young (realised heritability${error}). It is wrong when young of one generation were kept or scored in another way than those of the next.`;
}

function costColumns(): readonly Column<GenerationOfTrend>[] {
  return [
    { key: 'g', title: 'Generation', number: true, cell: (row) => row.generation },
    { key: 'n', title: 'Fish', number: true, cell: (row) => row.fish },
    { key: 's', title: 'Scored', number: true, cell: (row) => row.scored },
    {
      key: 'f',
      title: 'Mean F',
      number: true,
      cell: (row) => percent(row.meanInbreeding, 1),
    },
    {
      key: 'k',
      title: 'Mean kinship',
      number: true,
      cell: (row) => percent(row.meanKinship, 1),
    },
  ];
}
