import { Link, useParams, useSearchParams } from 'react-router';
import { LINE } from '../../api/lines.js';
import { LINE_OUTCROSS } from '../../api/outcross.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { addressOf, askedOf, partnerOf } from './chosen-partner.js';
import { OutcrossCautions } from './outcross-cautions.js';
import { OutcrossFound } from './outcross-found.js';
import { PartnerFields } from './partner-fields.js';

/** What an outcross of a line to one partner gives, and whether to make it. */
export function OutcrossScreen() {
  const { id = '' } = useParams();
  const [search, setSearch] = useSearchParams();
  const partner = partnerOf(search);
  const asked = askedOf(id, partner);
  const line = useRead(LINE, { id }).data?.line;
  const read = useRead(
    LINE_OUTCROSS,
    { input: asked ?? { lineId: id } },
    { pause: asked === null },
  );
  return (
    <Screen
      title={line === undefined ? 'Outcross' : `Outcross of line ${line.code}`}
      lead={
        line !== undefined && (
          <Link to={`/lines/${line.id}`}>
            {line.code} · {line.name}
          </Link>
        )
      }
    >
      <p className="lw-words">
        Choose a fish from outside the line: from another line here, from a line that a partner
        shared, or one that you only saw. The page tells what its young are expected to be,
        generation by generation, and whether the line needs new blood at all.
      </p>
      <PartnerFields
        partner={partner}
        mateOf={read.data?.lineOutcross.partner?.sex ?? null}
        onChange={(part) => setSearch(addressOf({ ...partner, ...part }), { replace: true })}
      />
      {asked === null ? (
        <Empty>
          No partner is chosen yet.{' '}
          <Link to={`/next-pairing?view=outcross&line=${id}`}>The list</Link> names those that are
          least related to the line.
        </Empty>
      ) : (
        <Shown read={read} what="the outcross">
          {({ lineOutcross }) => (
            <OutcrossFound lineId={id} outcross={lineOutcross} onDone={read.reload} />
          )}
        </Shown>
      )}
      <Section title="Before you outcross">
        <OutcrossCautions />
      </Section>
    </Screen>
  );
}
