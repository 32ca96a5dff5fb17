import type { StrategyForecast } from '../../api/line-routes.js';
import { DataTable } from '../../components/data-table.js';
import { ForecastFan } from '../../drawings/index.js';
import { percent, plainNumber } from '../../wording/figures.js';
import { fanPoints } from './forecast-fans.js';

interface NamedWay {
  readonly way: StrategyForecast;
  /** In the key of a fan: "the plan". */
  readonly name: string;
  /** Over a column: "Under the plan". */
  readonly title: string;
}

/** A line as it is bred in one way, beside another. */
export interface ForecastWays extends NamedWay {
  readonly other: NamedWay | null;
}

const asPercent = (value: number): string => percent(value, 0);

/** F, kinship and traits of one way as fans, with the middle of the other. */
export function ForecastFans({ ways: { way, name, other } }: { ways: ForecastWays }) {
  const beside = (of: Parameters<typeof fanPoints>[1]) =>
    other === null ? {} : { other: { name: other.name, points: fanPoints(other.way, of) } };
  return (
    <div className="lw-fans">
      <ForecastFan
        title="Mean F"
        name={name}
        points={fanPoints(way, ({ inbreeding }) => inbreeding)}
        words={asPercent}
        {...beside(({ inbreeding }) => inbreeding)}
      />
      <ForecastFan
        title="Mean kinship"
        name={name}
        points={fanPoints(way, ({ kinship }) => kinship)}
        words={asPercent}
        {...beside(({ kinship }) => kinship)}
      />
      {(way.generations[0]?.traits ?? []).map((trait, k) => (
        <ForecastFan
          key={trait.traitId}
          title={`${trait.name}, mean of what is inherited`}
          name={name}
          points={fanPoints(way, (each) => each.traits[k]?.mean)}
          words={(value) => plainNumber(value, 1)}
          {...beside((each) => each.traits[k]?.mean)}
        />
      ))}
    </div>
  );
}

/** The chance that each wanted allele is still there, generation by generation. */
export function AllelesTable({ ways: { way, title, other } }: { ways: ForecastWays }) {
  const alleles = way.generations[0]?.alleles ?? [];
  if (alleles.length === 0) return null;
  return (
    <DataTable
      caption={`Chance that each wanted allele is still there after ${way.generations.length - 1} generations`}
      rows={alleles.map((allele, k) => ({ ...allele, k }))}
      rowKey={({ locusId, symbol }) => `${locusId} ${symbol}`}
      columns={[
        {
          key: 'allele',
          title: 'Wanted allele',
          cell: ({ locusName, symbol, stillThere }) => (
            <>
              {symbol}, {locusName}
              <div className="lw-phone lw-quiet">there now: {percent(stillThere, 0)}</div>
            </>
          ),
        },
        {
          key: 'now',
          title: 'There now',
          number: true,
          wideOnly: true,
          cell: ({ stillThere }) => percent(stillThere, 0),
        },
        { key: 'way', title, number: true, cell: ({ k }) => <AfterAll way={way} allele={k} /> },
        ...(other === null
          ? []
          : [
              {
                key: 'other',
                title: other.title,
                number: true,
                cell: ({ k }: { k: number }) => <AfterAll way={other.way} allele={k} />,
              },
            ]),
      ]}
    />
  );
}

/** How often an allele is still there at the end, with its interval below: beside it, it would not fit a phone. */
function AfterAll({ way, allele }: { way: StrategyForecast; allele: number }) {
  const found = way.generations.at(-1)?.alleles[allele];
  if (found === undefined) return null;
  return (
    <>
      {percent(found.stillThere, 0)}
      <div className="lw-quiet">
        {Math.round(100 * found.low)} to {percent(found.high, 0)}
      </div>
    </>
  );
}
