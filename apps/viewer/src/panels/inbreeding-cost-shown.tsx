import { DataTable } from '../components/data-table.js';
import { Why } from '../components/why.js';
import { InbreedingCost } from '../drawings/index.js';
import { percent, plainNumber, plural } from '../wording/figures.js';
import { costText, smallestText, type Cost } from '../wording/merit-words.js';
import { costCurve } from './cost-curve.js';

interface CountedBrood {
  readonly spawnId: string;
  readonly tag: string;
  readonly inbreeding: number;
  readonly counted: number;
  readonly alive: number;
}

interface CostOfColumn extends Cost {
  /** "F of the young", "F of the dam", old and recent apart. */
  readonly name: string;
}

export interface InbreedingCostFigures {
  /** "survival from hatching to free-swimming". */
  readonly what: string;
  readonly broods: readonly CountedBrood[];
  /** A: -ln of the share alive without inbreeding. */
  readonly withoutInbreeding: number;
  readonly betweenBroods: number;
  /** The first is the one that is drawn. */
  readonly costs: readonly CostOfColumn[];
}

/** What inbreeding costs here, with how sure that is and the smallest cost that could have been seen at all. */
export function InbreedingCostShown({ figures }: { figures: InbreedingCostFigures }) {
  const { what, broods, withoutInbreeding, costs } = figures;
  const [first] = costs;
  if (first === undefined) return null;
  return (
    <>
      <Why about={`the cost of inbreeding in ${what}`} figure={costText(first, what)}>
        <WhyCost figures={figures} />
      </Why>
      <p className="lw-words">{smallestText(first.smallest)}</p>
      <InbreedingCost
        title={`What inbreeding costs in ${what}`}
        what={`Share of young alive: ${what}`}
        whose={first.name}
        broods={broods.map(({ spawnId, ...brood }) => ({ id: spawnId, ...brood }))}
        curve={costCurve(first, withoutInbreeding, broods)}
      />
    </>
  );
}

function WhyCost({
  figures: { broods, withoutInbreeding, betweenBroods, costs },
}: {
  figures: InbreedingCostFigures;
}) {
  const rate = (value: number): string =>
    Number.isFinite(value) ? plainNumber(value, 2) : value > 0 ? 'no upper end' : 'no lower end';
  return (
    <>
      <p>
        {plural(broods.length, 'brood')}. If causes of death act one by one, −ln of the share alive
        is A + B F (Morton, Crow &amp; Muller 1956): A {plainNumber(withoutInbreeding, 2)}, the
        share alive without inbreeding being {percent(Math.exp(-withoutInbreeding), 0)}; B is the
        number of lethal equivalents a gamete. Broods differ by more than chance (correlation
        between young of a brood {plainNumber(betweenBroods, 2)}), and that is counted.
      </p>
      <DataTable
        caption="Lethal equivalents"
        rows={costs}
        rowKey={({ name }) => name}
        columns={[
          { key: 'name', title: 'Inbreeding', cell: ({ name }) => name },
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
            cell: ({ smallest }) => (smallest === null ? '–' : rate(smallest)),
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
