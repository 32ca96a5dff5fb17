import { Navigate } from 'react-router';
import { ANY_FISH, ANY_LINE } from '../../api/founders.js';
import { useRead } from '../../api/use-read.js';
import { Loading } from '../../components/states.js';
import { useKeepsRecords } from '../../session/may.js';
import { useSession } from '../../session/session-context.js';

/** Nothing is recorded yet. Where there is a line, no fish is asked for: a list of many is counted each time. */
function useEmptyBook(): boolean | null {
  const lines = useRead(ANY_LINE, {});
  const without = lines.data?.lines.length === 0;
  const fish = useRead(ANY_FISH, {}, { pause: !without });
  if (lines.loading || fish.loading) return null;
  return without && fish.data?.fishList.edges.length === 0;
}

/** Where the address alone leads: to the fish, or into an empty book. */
export function Home() {
  const nothing = useEmptyBook();
  const keeps = useKeepsRecords();
  const { looking } = useSession();
  if (nothing === null) return <Loading what="your book" />;
  const empty = nothing && keeps && !looking;
  return <Navigate to={empty ? '/start' : '/fish'} replace />;
}
