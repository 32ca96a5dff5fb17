import { PRINTABLE_ONE, PRINTABLE_SPAWNS } from '../../api/print.js';
import { VESSEL_CODES } from '../../api/vessels.js';
import { LINE_CHOICES } from '../../api/lines.js';
import { useRead, type Read } from '../../api/use-read.js';
import type { Problem } from '../../api/problem.js';
import { filterFrom } from '../fish-list/fish-filter.js';
import type { PrintKind } from './sheet-text.js';
import { usePrintableFish } from './use-printable-fish.js';

export interface Printable {
  readonly id: string;
  readonly label: string;
}

export interface Printables {
  readonly list: readonly Printable[];
  readonly total: number;
  readonly loading: boolean;
  readonly problem: Problem | null;
}

const MOST = 200;

/** One fish where the address names one; else those of the list as it was filtered. */
function usePrintableJars(search: URLSearchParams, pause: boolean): Printables {
  const fishId = search.get('fish');
  const spawnId = search.get('spawn');
  const one = useRead(PRINTABLE_ONE, { id: fishId ?? '' }, { pause: pause || fishId === null });
  const given = filterFrom(search);
  const filter = {
    ...given,
    includeWithdrawn: false,
    ...(spawnId === null ? {} : { spawnId }),
    ...('dispositions' in given
      ? {}
      : { dispositions: ['UNSORTED' as const, 'KEEPER' as const, 'HOLD' as const] }),
  };
  const { list, ...fish } = usePrintableFish(filter, pause || fishId !== null);
  if (fishId === null) return { ...fish, list: list.map(({ id, tag }) => ({ id, label: tag })) };
  return shownOf(one, ({ fish: { id, tag } }) => [{ id, label: tag }]);
}

function usePrintableSpawns(pause: boolean): Printables {
  const read = useRead(PRINTABLE_SPAWNS, { first: MOST }, { pause });
  const shown = shownOf(read, ({ spawnList }) =>
    spawnList.edges.map(({ node: { id, tag } }) => ({ id, label: tag })),
  );
  return { ...shown, total: read.data?.spawnList.totalCount ?? 0 };
}

function usePrintableLines(pause: boolean): Printables {
  const read = useRead(LINE_CHOICES, {}, { pause });
  return shownOf(read, ({ lines }) =>
    lines.map(({ id, code, name }) => ({ id, label: `${code} ${name}` })),
  );
}

function usePrintableVessels(pause: boolean): Printables {
  const read = useRead(VESSEL_CODES, { after: null }, { pause });
  const shown = shownOf(read, ({ vessels }) =>
    vessels.edges.map(({ node: { id, code } }) => ({ id, label: code })),
  );
  return { ...shown, total: read.data?.vessels.totalCount ?? 0 };
}

function shownOf<Data>(
  { data, loading, problem }: Read<Data>,
  listOf: (data: Data) => readonly Printable[],
): Printables {
  const list = data === undefined ? [] : listOf(data);
  return { list, total: list.length, loading, problem };
}

/** What the address of the screen lets choose from: one fish, a spawn's, a line's, or the fish list as it was filtered. */
export function usePrintables(kind: PrintKind, search: URLSearchParams): Printables {
  const jars = usePrintableJars(search, kind !== 'jar-labels');
  const spawns = usePrintableSpawns(kind !== 'spawn-cards');
  const lines = usePrintableLines(kind !== 'line-cards');
  const vessels = usePrintableVessels(kind !== 'vessel-labels');
  return {
    'jar-labels': jars,
    'vessel-labels': vessels,
    'spawn-cards': spawns,
    'line-cards': lines,
  }[kind];
}
