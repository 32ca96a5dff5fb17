import { PRINTABLE_ONE, PRINTABLE_SPAWNS } from '../../api/print.js';
import { LINE_CHOICES } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
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

/** What the address of the screen lets choose from: one fish, a spawn's, a line's, or the fish list as it was filtered. */
export function usePrintables(kind: PrintKind, search: URLSearchParams): Printables {
  const fishId = search.get('fish');
  const spawnId = search.get('spawn');
  const one = useRead(
    PRINTABLE_ONE,
    { id: fishId ?? '' },
    { pause: kind !== 'jar-labels' || fishId === null },
  );
  const given = filterFrom(search);
  const filter = {
    ...given,
    includeWithdrawn: false,
    ...(spawnId === null ? {} : { spawnId }),
    ...('dispositions' in given
      ? {}
      : { dispositions: ['UNSORTED' as const, 'KEEPER' as const, 'HOLD' as const] }),
  };
  const fish = usePrintableFish(filter, kind !== 'jar-labels' || fishId !== null);
  const spawns = useRead(PRINTABLE_SPAWNS, { first: MOST }, { pause: kind !== 'spawn-cards' });
  const lines = useRead(LINE_CHOICES, {}, { pause: kind !== 'line-cards' });
  const read =
    kind === 'spawn-cards' ? spawns : kind === 'line-cards' ? lines : fishId === null ? fish : one;
  const list = (): Printable[] => {
    if (kind === 'spawn-cards') {
      return (spawns.data?.spawnList.edges ?? []).map(({ node }) => ({
        id: node.id,
        label: node.tag,
      }));
    }
    if (kind === 'line-cards') {
      return (lines.data?.lines ?? []).map(({ id, code, name }) => ({
        id,
        label: `${code} ${name}`,
      }));
    }
    if (fishId !== null) {
      return one.data === undefined ? [] : [{ id: one.data.fish.id, label: one.data.fish.tag }];
    }
    return fish.list.map(({ id, tag }) => ({ id, label: tag }));
  };
  const shown = list();
  const total =
    kind === 'jar-labels' && fishId === null
      ? fish.total
      : kind === 'spawn-cards'
        ? (spawns.data?.spawnList.totalCount ?? 0)
        : shown.length;
  return { list: shown, total, loading: read.loading, problem: read.problem };
}
