import { NativeSelect } from '@mantine/core';
import { useMemo, useState, type SetStateAction, type Dispatch } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import { LINE } from '../../api/lines.js';
import { RELATIONSHIP_MAP, type RelationshipMapAnswer } from '../../api/relationship.js';
import { useRead } from '../../api/use-read.js';
import { CountUnsorted, useCountUnsorted } from '../../components/count-unsorted.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { RelationshipMap } from '../../drawings/index.js';
import { percent, plural } from '../../wording/figures.js';
import { OneFishTable } from './one-fish-table.js';
import { pairPath, whyNoPair, wholeMatrix } from './mapped-pair.js';

/** Coancestry of every pair of fish in use, of one line or of all. */
export function RelationshipScreen() {
  const { id } = useParams();
  const [unsorted, setUnsorted] = useCountUnsorted();
  const line = useRead(LINE, { id: id ?? '' }, { pause: id === undefined });
  const read = useRead(RELATIONSHIP_MAP, {
    lineIds: id === undefined ? null : [id],
    includeUnsorted: unsorted,
  });
  const known = line.data?.line;
  return (
    <Screen
      title={id === undefined ? 'Relationship map' : `Relationship map ${known?.code ?? ''}`.trim()}
      lead={
        known === undefined ? (
          id === undefined && 'All fish in use'
        ) : (
          <>
            Fish in use of{' '}
            <Link to={`/lines/${known.id}`}>
              {known.code} · {known.name}
            </Link>
          </>
        )
      }
      actions={
        id === undefined ? (
          <Link to="/lines">Lines</Link>
        ) : (
          <>
            <Link to={`/lines/${id}/health`}>Line health</Link>
            <Link to="/relationship">All fish in use</Link>
          </>
        )
      }
    >
      <CountUnsorted unsorted={unsorted} onChange={setUnsorted} />
      <Shown read={read} what="the relationships">
        {({ relationshipMap }) =>
          relationshipMap.fish.length === 0 ? (
            <Empty action={<Link to="/fish">Go to the fish</Link>}>{relationshipMap.whyNone}</Empty>
          ) : (
            <MapSections map={relationshipMap} />
          )
        }
      </Shown>
    </Screen>
  );
}

const drawnSex = {
  MALE: 'male',
  FEMALE: 'female',
  UNSEXED: 'unknown',
  UNCERTAIN: 'unknown',
} as const;

function MapSections({ map }: { map: RelationshipMapAnswer }) {
  const navigate = useNavigate();
  const [chosen, setChosen] = useState(map.fish[0]?.fish.id ?? '');
  const matrix = useMemo(() => wholeMatrix(map.coancestry, map.fish.length), [map]);
  const drawn = useMemo(
    () =>
      map.fish.map(({ fish, family, inbreedingBasis }) => ({
        id: fish.id,
        originKnown: inbreedingBasis === 'KNOWN',
        tag: fish.tag,
        sex: drawnSex[fish.sex],
        // Fish that stand alone are not parted from each other: the rules would hatch the map.
        group: (map.families[family]?.count ?? 1) > 1 ? `family ${family + 1}` : null,
      })),
    [map],
  );
  const byId = useMemo(() => new Map(map.fish.map(({ fish }) => [fish.id, fish])), [map]);
  const several = map.families.filter(({ count }) => count > 1).length;
  // What was chosen may have left the map when the unsorted are no longer counted.
  const one = map.fish.findIndex(({ fish }) => fish.id === chosen);
  return (
    <>
      <Section title="Every pair" aside={plural(map.fish.length, 'fish', 'fish')}>
        <WhyOrder several={several} map={map} />
        {map.inUseCount > map.fish.length && (
          <p className="lw-words">
            {map.inUseCount.toLocaleString('en')} fish are too many for one map. It shows one of
            each sex of every pair’s young, the first by tag. Its full sibs stand to the other fish
            as it does, except to each other and to their own young.
          </p>
        )}
        <p className="lw-quiet">
          Choose a square for the pair’s figure; choose it again, press Enter or “Open pair” to see
          what the pair would give.
        </p>
        <RelationshipMap
          fish={drawn}
          coancestry={matrix}
          title="Coancestry of the fish in use"
          whyNotOpen={(a, b) => whyNoPair(byId.get(a), byId.get(b))}
          onOpenPair={(a, b) => {
            const path = pairPath(byId.get(a), byId.get(b));
            if (path !== null) void navigate(path);
          }}
          onSelectPair={(a) => setChosen(a)}
        />
      </Section>
      <OneFishSection map={map} one={one} setChosen={setChosen} matrix={matrix} />
    </>
  );
}

function OneFishSection({
  map,
  one,
  setChosen,
  matrix,
}: {
  map: RelationshipMapAnswer;
  one: number;
  setChosen: Dispatch<SetStateAction<string>>;
  matrix: Float64Array<ArrayBufferLike>;
}) {
  return (
    <Section title="One fish and all others">
      <NativeSelect
        label="Fish"
        value={map.fish[Math.max(0, one)]?.fish.id ?? ''}
        onChange={(event) => setChosen(event.currentTarget.value)}
        data={map.fish.map(({ fish, standsFor }) => ({
          value: fish.id,
          label: standsFor > 1 ? `${fish.tag}, for ${standsFor} sibs` : fish.tag,
        }))}
      />
      <OneFishTable map={map} matrix={matrix} place={Math.max(0, one)} />
    </Section>
  );
}

function WhyOrder({ several, map }: { several: number; map: RelationshipMapAnswer }) {
  return (
    <Why
      about="The order and the squares"
      figure={`${plural(several, 'family', 'families')} of two fish or more`}
    >
      <p className="lw-words">
        A square is the coancestry of a pair: the chance that a gene drawn from each is a copy of
        one gene of a common ancestor, which is the F their brood would have. Relatives stand side
        by side: groups are joined by the largest mean coancestry between them, and each join is
        turned so that the most similar ends meet (average linkage, Sokal & Michener 1958). Lines
        separate families: full sibs, and groups joined at a mean of {percent(map.familyAt)} or more
        here: half sibs (12.5 %), counted from what the middle pair of this map shares. Unknown
        ancestors count as unrelated.
      </p>
    </Why>
  );
}
