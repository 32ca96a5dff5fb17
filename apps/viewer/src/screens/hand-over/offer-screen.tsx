import { useContext } from 'react';
import { Link, useNavigate, useParams, useSearchParams } from 'react-router';
import { FISH_RECEIVERS, FISH_TO_HAND_OVER, type OfferedFish } from '../../api/hand-overs.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { SessionContext } from '../../session/session-context.js';
import { OfferForm } from './offer-form.js';
import styles from './offer-form.module.css';

/**
 * Fish offered to somebody: `/fish/ID/hand-over`, with `?to=PERSON` and `&kind=GIFT`, `SALE` or `LOAN` filled in where it is known whom
 * for and how, and `&request=ID` where it answers a request of the club.
 */
export function OfferScreen() {
  const { id = '' } = useParams();
  const read = useRead(FISH_TO_HAND_OVER, { id });
  const tag = read.data?.fish.tag;
  return (
    <Screen
      title={tag === undefined ? 'Hand over' : `Hand over ${tag}`}
      lead="It is offered first; it moves once the other side has accepted."
      links={<Link to="/hand-overs">All hand-overs</Link>}
    >
      <Shown read={read} what="the fish">
        {({ fish }) => <Offer key={fish.id} fish={fish} />}
      </Shown>
    </Screen>
  );
}

const KINDS = ['GIFT', 'SALE', 'LOAN'] as const;

function Offer({ fish }: { fish: OfferedFish }) {
  const [search] = useSearchParams();
  const navigate = useNavigate();
  const read = useRead(FISH_RECEIVERS, {});
  const role = useContext(SessionContext)?.role;
  const partner = role === 'PARTNER' || role === 'KEEPER';
  const open = fish.handOvers.find(({ state }) => state === 'OFFERED');
  if (open !== undefined)
    return (
      <Empty action={<Link to="/hand-overs">See the offer</Link>}>
        {fish.tag} is offered to {open.toName} already: take that offer back first.
      </Empty>
    );
  const asked = search.get('kind');
  return (
    <Shown read={read} what="the people">
      {({ fishReceivers }) =>
        fishReceivers.length === 0 && !partner ? (
          <Empty action={<Link to="/people">People</Link>}>
            Nobody else has an account here. Invite somebody first; what they see is up to you.
          </Empty>
        ) : (
          <div className={styles['form']}>
            <OfferForm
              fish={fish}
              people={fishReceivers}
              byName={partner}
              toId={search.get('to') ?? ''}
              kind={KINDS.find((kind) => kind === asked) ?? 'GIFT'}
              requestId={search.get('request')}
              onOffered={() => void navigate('/hand-overs')}
            />
          </div>
        )
      }
    </Shown>
  );
}
