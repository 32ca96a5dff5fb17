import { Navigate } from 'react-router';
import { ANY_FISH } from '../../api/founders.js';
import { useRead } from '../../api/use-read.js';
import { Loading } from '../../components/states.js';
import { useKeepsRecords } from '../../session/may.js';
import { useSession } from '../../session/session-context.js';

/** Where the address alone leads: to the fish, or into an empty book. */
export function Home() {
  const { data, loading } = useRead(ANY_FISH, {});
  const keeps = useKeepsRecords();
  const { looking } = useSession();
  if (loading) return <Loading what="your book" />;
  const empty = data?.fishList.edges.length === 0 && keeps && !looking;
  return <Navigate to={empty ? '/start' : '/fish'} replace />;
}
