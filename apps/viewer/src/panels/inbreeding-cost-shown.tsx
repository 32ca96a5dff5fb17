import type { StageLoad } from '../api/merit.js';
import { DataTable } from '../components/data-table.js';
import { Empty } from '../components/states.js';
import { Why } from '../components/why.js';
import { InbreedingCost } from '../drawings/index.js';
import { percent, plainNumber, plural } from '../wording/figures.js';
import { costText, smallestText, type Cost } from '../wording/merit-words.js';
import { loadColumnWord, stageWords } from '../wording/load-words.js';
import { costCurve } from './cost-curve.js';

type CostOfColumn = StageLoad['costs'][number];

const costOf = (of: CostOfColumn): Cost => ({
  verdict: of.verdict,
  perGamete: of.perGamete,
  low: of.low ?? -Infinity,
  high: of.high ?? Infinity,
  smallest: of.smallestDetectable,
});

/** What inbreeding costs at one stage, how sure that is, and the smallest cost that could have been seen at all. */
export function InbreedingCostShown({ load }: { load: StageLoad }) {
  const { what, share } = stageWords[load.stage];
  const [first] = load.costs;
  if (first === undefined || load.survivalWithout === null) {
    return (
      <Empty>
        Cannot tell yet what inbreeding costs in {what}: {load.refusal?.message}{' '}
        {load.refusal?.remedy}
      </Empty>
    );
  }
  const cost = costOf(first);
  const whose = first.column === 'DAM' ? 'dam' : 'young';
  const broods = load.points.map((point) => ({
    id: point.spawnId,
    tag: point.tag,
    inbreeding: point[whose],
    counted: point.counted,
    alive: point.survivors,
  }));
  return (
    <>
      <Why about={`the cost of inbreeding in ${what}`} figure={costText(cost, what)}>
        <WhyCost load={load} survivalWithout={load.survivalWithout} />
      </Why>
      <p className="lw-words">{smallestText(cost.smallest)}</p>
      <InbreedingCost
        title={`What inbreeding costs in ${what}`}
        what={share}
        whose={loadColumnWord[first.column]}
        broods={broods}
        curve={costCurve(cost, -Math.log(load.survivalWithout), broods)}
      />
    </>
  );
}

function WhyCost({ load, survivalWithout }: { load: StageLoad; survivalWithout: number }) {
  const { betweenBroods, broods, costs, byAge } = load;
  const rate = (value: number | null): string => (value === null ? 'open' : plainNumber(value, 2));
  return (
    <>
      <p>
        {plural(broods, 'brood')}. If causes of death act one by one, −ln of the share alive is A +
        B F (Morton, Crow &amp; Muller 1956): without inbreeding {percent(survivalWithout, 0)} would
        live; B is the number of lethal equivalents a gamete.
        {betweenBroods !== null &&
          ` Broods differ by more than chance (correlation between young of a brood ${plainNumber(betweenBroods, 2)}), and that is counted.`}
      </p>
      <DataTable
        caption="Lethal equivalents"
        rows={[...costs, ...byAge.filter(({ column }) => column === 'RECENT' || column === 'OLD')]}
        rowKey={({ column }) => column}
        columns={[
          { key: 'name', title: 'Inbreeding', cell: ({ column }) => loadColumnWord[column] },
          { key: 'b', title: 'B', number: true, cell: ({ perGamete }) => rate(perGamete) },
          {
            key: 'band',
            title: '95 of 100',
            number: true,
            cell: ({ low, high }) => `${rate(low)} to ${rate(high)}`,
          },
          {
            key: 'least',
            title: 'Smallest to be seen',
            number: true,
            cell: ({ smallestDetectable }) =>
              smallestDetectable === null ? 'none' : rate(smallestDetectable),
          },
        ]}
      />
      <p>
        Later broods are often more inbred: what changed with time, such as water, food or your own
        hand, looks like inbreeding here. No figure has been published for bettas.
      </p>
    </>
  );
}
