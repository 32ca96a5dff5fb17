import { NativeSelect } from '@mantine/core';
import { Link, useParams, useSearchParams } from 'react-router';
import { type LikelyCarrier, WHO_CARRIES, type WhoCarries } from '../../api/carriers.js';
import { LINES } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { MorePages } from '../../components/more-pages.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { chanceText } from '../../wording/chances.js';
import { plural } from '../../wording/figures.js';
import { countsText, onlyText } from '../../wording/who-carries-words.js';

/** Who of the fish in use carries an allele: known ones, likely ones, and the last of a line. */
export function CarriersScreen() {
  const { id: locusId = '' } = useParams();
  const [search, setSearch] = useSearchParams();
  const [alleleId, lineId] = [search.get('allele'), search.get('line')];
  const read = useRead(WHO_CARRIES, { locusId, alleleId, lineId, after: null });
  const set = (name: string, value: string): void =>
    setSearch((now) => {
      const next = new URLSearchParams(now);
      if (value === '') next.delete(name);
      else next.set(name, value);
      return next;
    });
  const name = read.data?.whoCarries.locusName;
  return (
    <Screen
      title={name === undefined ? 'Who carries it' : `Who carries ${name}`}
      lead="From all records of the fish and their relatives, in all lines."
      actions={<Link to="/loci">Loci</Link>}
    >
      <Shown read={read} what="the carriers">
        {({ whoCarries }) => (
          <>
            <Choice found={whoCarries} lineId={lineId} onChange={set} />
            <Found found={whoCarries} lineId={lineId} onDone={read.reload} />
          </>
        )}
      </Shown>
    </Screen>
  );
}

interface ChoiceProps {
  found: WhoCarries;
  lineId: string | null;
  onChange: (name: string, value: string) => void;
}

function Choice({ found, lineId, onChange }: ChoiceProps) {
  const lines = useRead(LINES, { includeWithdrawn: false });
  return (
    <div className="lw-filter" role="search" aria-label="Which allele, in which line">
      <NativeSelect
        className="lw-filter-wide"
        label="Allele"
        value={found.alleleId}
        data={found.alleles.map(({ id, symbol, name }) => ({
          value: id,
          label: `${symbol} · ${name}`,
        }))}
        onChange={(event) => onChange('allele', event.currentTarget.value)}
      />
      <NativeSelect
        className="lw-filter-wide"
        label="Line"
        value={lineId ?? ''}
        data={[
          { value: '', label: 'all lines' },
          ...(lines.data?.lines ?? []).map(({ id, code, name }) => ({
            value: id,
            label: `${code} · ${name}`,
          })),
        ]}
        onChange={(event) => onChange('line', event.currentTarget.value)}
      />
    </div>
  );
}

interface FoundProps {
  found: WhoCarries;
  lineId: string | null;
  onDone: () => void;
}

function Found({ found, lineId, onDone }: FoundProps) {
  if (found.waiting !== null)
    return <WaitingComputation computation={found.waiting} what="who carries it" onDone={onDone} />;
  if (found.whyNone !== null) return <Empty>{found.whyNone}</Empty>;
  return (
    <>
      <p role="status">{countsText(found)}</p>
      {found.carriers.totalCount > 0 && (
        <Rows found={found} lineId={lineId} page={found.carriers} before={0} />
      )}
      <p className="lw-quiet lw-words">
        By {plural(found.recordCount, 'record')} of this locus. {found.founders}{' '}
        {found.assumed.join(' ')} {found.method}
      </p>
    </>
  );
}

interface RowsProps {
  found: WhoCarries;
  lineId: string | null;
  page: WhoCarries['carriers'];
  before: number;
}

function Rows({ found, lineId, page, before }: RowsProps) {
  const listed = before + page.edges.length;
  return (
    <>
      <DataTable
        caption="Fish that carry it, the surest first"
        rows={page.edges.map(({ node }) => node)}
        rowKey={({ fish }) => fish.id}
        columns={columns}
      />
      <MorePages
        page={page}
        listed={listed}
        what="fish"
        order={{ first: 'surest', next: 'more' }}
        next={(after) => <NextRows found={found} lineId={lineId} after={after} before={listed} />}
      />
    </>
  );
}

interface NextRowsProps extends Omit<RowsProps, 'page'> {
  after: string;
}

function NextRows({ found, lineId, after, before }: NextRowsProps) {
  const { locusId, alleleId } = found;
  const read = useRead(WHO_CARRIES, { locusId, alleleId, lineId, after });
  return (
    <Shown read={read} what="more fish">
      {({ whoCarries }) => (
        <Rows found={found} lineId={lineId} page={whoCarries.carriers} before={before} />
      )}
    </Shown>
  );
}

const columns: readonly Column<LikelyCarrier>[] = [
  {
    key: 'fish',
    title: 'Fish',
    cell: ({ fish }) => (
      <>
        <FishLink fish={fish} />
      </>
    ),
  },
  { key: 'line', title: 'Line', wideOnly: true, cell: ({ fish }) => fish.line?.code ?? '' },
  {
    key: 'carries',
    title: 'Carries it',
    number: true,
    cell: ({ probability }) => chanceText(probability),
  },
  {
    key: 'twice',
    title: 'Has it twice',
    number: true,
    wideOnly: true,
    cell: ({ twice }) => chanceText(twice),
  },
  {
    key: 'only',
    title: 'Last carrier',
    cell: ({ only, fish }) => onlyText(only, fish.line?.code ?? null),
  },
];
