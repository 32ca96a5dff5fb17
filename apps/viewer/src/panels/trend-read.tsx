import { TRAIT_TREND } from '../api/merit.js';
import { useRead } from '../api/use-read.js';
import { Empty, Shown } from '../components/states.js';
import { SelectedScores } from './selected-scores.js';
import { TraitTrendShown, type TrendTrait } from './trait-trend-shown.js';
import { WaitingComputation } from './waiting-computation.js';

interface TrendReadProps {
  trait: TrendTrait & { readonly id: string };
  line: { readonly id: string; readonly code: string };
  /** The caution about chosen fish stands above on the same screen. */
  cautioned?: boolean;
}

/** A line's trend in a trait, or that it is worked out, or why there is none. */
export function TrendRead({ trait, line, cautioned = false }: TrendReadProps) {
  const read = useRead(TRAIT_TREND, { traitId: trait.id, lineId: line.id });
  return (
    <Shown read={read} what="the trend">
      {({ traitTrend: trend }) =>
        trend.waiting !== null ? (
          <WaitingComputation
            key={trend.waiting.id}
            computation={trend.waiting}
            what={`the trend of ${trait.name}`}
            onDone={read.reload}
          />
        ) : trend.refusal !== null ? (
          <Empty>
            {trend.refusal.message} {trend.refusal.remedy}
          </Empty>
        ) : (
          <>
            <TraitTrendShown trait={trait} lineCode={line.code} trend={trend} />
            {!cautioned && (
              <SelectedScores
                of={[{ name: trait.name, selectionCaution: trend.selectionCaution }]}
              />
            )}
          </>
        )
      }
    </Shown>
  );
}
