import { NativeSelect } from '@mantine/core';
import { useMemo, useState, type SetStateAction, type Dispatch } from 'react';
import { Link, useNavigate, useParams, useSearchParams } from 'react-router';
import { FISH_FACTS, FISH_INBREEDING, FISH_PEDIGREE, type FishFacts } from '../../api/fish.js';
import { LINE_OUTCROSS } from '../../api/outcross.js';
import { PAIRINGS, PLANNED_BROOD, type PlannedBrood } from '../../api/pairings.js';
import { useRead, type Read } from '../../api/use-read.js';
import { InbreedingPaths } from '../../components/inbreeding-paths.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { PicturedPedigree } from '../../panels/pictured-pedigree.js';
import { FishPicker } from '../../pickers/fish-picker.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { damSexes, sexWord, sireSexes } from '../../wording/words.js';
import { branchIn, type OutcrossBranch, outcrossPath } from '../outcross/chosen-partner.js';
import { OutcrossDrawing } from './outcross-drawing.js';
import { withPlannedPairings } from './planned-pairings.js';
import { drawnBrood, drawnFish, drawnPath } from './drawn-fish.js';
import type { Inbreeding } from '../../api/fish.js';

const generations = ['1', '2', '3', '4', '5', '6', '8', '10', '12'];

/** The whole pedigree of a fish, with a planned pairing dropped in on request (`?with=<partner>`), or an outcross that is looked at. */
export function PedigreeScreen() {
  const { id = '' } = useParams();
  const [search, setSearch] = useSearchParams();
  const partnerId = search.get('with');
  const outcross = branchIn(search);
  const read = useRead(FISH_FACTS, { id });
  return (
    <Shown read={read} what="the fish">
      {({ fish }) => (
        <Screen
          title={`Pedigree of ${fish.tag}`}
          lead={
            <>
              F {inbreedingText(fish)} · <Link to={`/fish/${fish.id}`}>all about {fish.tag}</Link>
            </>
          }
        >
          {outcross === null ? (
            <PedigreeOf
              key={fish.id}
              fish={fish}
              partnerId={partnerId}
              onPartner={(next) =>
                setSearch(next === null ? {} : { with: next }, { replace: true })
              }
            />
          ) : (
            <OutcrossOf mateId={fish.id} asked={outcross} />
          )}
        </Screen>
      )}
    </Shown>
  );
}

/** An outcross of this fish that is looked at, as a branch of its pedigree. */
function OutcrossOf({ mateId, asked }: { mateId: string; asked: OutcrossBranch }) {
  const read = useRead(LINE_OUTCROSS, { input: { ...asked, mateId, simulated: false } });
  return (
    <Shown read={read} what="the outcross">
      {({ lineOutcross }) => (
        <>
          <p>
            <Link to={outcrossPath(asked.lineId, { ...asked, mateId })}>
              What this outcross gives
            </Link>{' '}
            · <Link to={`/fish/${mateId}/pedigree`}>the pedigree without it</Link>
          </p>
          {lineOutcross.whyNone !== null && <Empty>{lineOutcross.whyNone}</Empty>}
          {lineOutcross.backcrosses !== null && <OutcrossDrawing outcross={lineOutcross} up={6} />}
        </>
      )}
    </Shown>
  );
}

interface PedigreeOfProps {
  fish: FishFacts;
  partnerId: string | null;
  onPartner: (id: string | null) => void;
}

function PedigreeOf({ fish, partnerId, onPartner }: PedigreeOfProps) {
  const [up, setUp] = useState('6');
  const [down, setDown] = useState('2');
  const asSire = fish.sex !== 'FEMALE';
  const partnerSexes =
    fish.sex === 'MALE' ? damSexes : fish.sex === 'FEMALE' ? sireSexes : undefined;
  const choose = (label: string, value: string, set: (value: string) => void, from: string[]) => (
    <NativeSelect
      label={label}
      value={value}
      onChange={(event) => set(event.currentTarget.value)}
      data={from}
    />
  );
  return (
    <>
      <div className="lw-filter">
        {choose('Generations up', up, setUp, generations)}
        {choose('Generations down', down, setDown, ['0', ...generations.slice(0, 6)])}
        <div className="lw-filter-text">
          <FishPicker
            label={asSire ? 'Preview a brood with dam' : 'Preview a brood with sire'}
            value={partnerId}
            onChange={onPartner}
            {...(partnerSexes === undefined ? {} : { sexes: partnerSexes })}
          />
        </div>
      </div>
      {partnerId === null ? (
        <OwnPedigree fish={fish} up={Number(up)} down={Number(down)} />
      ) : (
        <PlannedPedigree
          sireId={asSire ? fish.id : partnerId}
          damId={asSire ? partnerId : fish.id}
          up={Number(up)}
        />
      )}
    </>
  );
}

function OwnPedigree({ fish, up, down }: { fish: FishFacts; up: number; down: number }) {
  const navigate = useNavigate();
  const [chosen, setChosen] = useState<number | null>(null);
  const read = useRead(FISH_PEDIGREE, { id: fish.id, up, down, limit: 1200 });
  const inbreeding = useRead(FISH_INBREEDING, { id: fish.id, limit: 50 });
  const slice = read.data?.pedigree;
  const pairings = useRead(PAIRINGS, { states: ['PLANNED'] }).data?.pairings;
  const drawn = useMemo(
    () => withPlannedPairings(fish.id, slice === undefined ? [] : drawnFish(slice), pairings ?? []),
    [fish.id, slice, pairings],
  );
  const path = chosen === null ? undefined : inbreeding.data?.fish.inbreeding.paths[chosen];
  const pathIds = useMemo(() => path?.fish.map((each) => each.id) ?? null, [path]);
  return (
    <>
      <Shown read={read} what="the pedigree">
        {({ pedigree }) => (
          <>
            {pedigree.truncated && (
              <p className="lw-quiet">
                Only the nearest {pedigree.fish.length} relatives are drawn; choose fewer
                generations to see a part in full. F counts them all.
              </p>
            )}
            <PicturedPedigree
              fish={drawn.fish}
              planned={drawn.planned}
              focusId={fish.id}
              highlightedPath={pathIds}
              maxAncestorGenerations={up}
              maxDescendantGenerations={down}
              onOpenFish={(id) => void navigate(drawnPath(pedigree, id, '/pedigree'))}
              height="min(72vh, 820px)"
              title={`Pedigree of ${fish.tag}`}
            />
          </>
        )}
      </Shown>
      <WhyInbreeding fish={fish} inbreeding={inbreeding} chosen={chosen} setChosen={setChosen} />
    </>
  );
}

function WhyInbreeding({
  fish,
  inbreeding,
  chosen,
  setChosen,
}: {
  fish: FishFacts;
  inbreeding: Read<{ fish: { id: string; inbreeding: Inbreeding } }>;
  chosen: number | null;
  setChosen: Dispatch<SetStateAction<number | null>>;
}) {
  return (
    <Section title={`Why F of ${fish.tag} is ${inbreedingText(fish)}`}>
      <Shown read={inbreeding} what="the paths">
        {(data) => (
          <InbreedingPaths inbreeding={data.fish.inbreeding} chosen={chosen} onChoose={setChosen} />
        )}
      </Shown>
    </Section>
  );
}

function PlannedPedigree({ sireId, damId, up }: { sireId: string; damId: string; up: number }) {
  const read = useRead(PLANNED_BROOD, { sireId, damId, broodSize: 100 });
  return (
    <Shown read={read} what="the planned brood">
      {({ plannedBrood }) => <PlannedBrood brood={plannedBrood} up={up} />}
    </Shown>
  );
}

function PlannedBrood({ brood, up }: { brood: PlannedBrood; up: number }) {
  const navigate = useNavigate();
  const [chosen, setChosen] = useState<number | null>(null);
  const { sire, dam } = brood;
  // The API's slice may carry the brood itself; the drawing adds it from `planned`.
  const drawn = useMemo(
    () => drawnFish(brood.slice).filter((each) => each.id !== 'planned'),
    [brood.slice],
  );
  const planned = useMemo(() => [drawnBrood(brood)], [brood]);
  const path = chosen === null ? undefined : brood.inbreeding.paths[chosen];
  const pathIds = useMemo(() => path?.fish.map((each) => each.id) ?? null, [path]);
  return (
    <>
      <PicturedPedigree
        fish={drawn}
        focusId={sire.id}
        scope="all"
        planned={planned}
        highlightedPath={pathIds}
        maxAncestorGenerations={up}
        onOpenFish={(id) => void navigate(drawnPath(brood.slice, id))}
        height="min(72vh, 820px)"
        title={`Planned brood of ${sire.tag} and ${dam.tag}`}
      />
      <Section
        title={`Why F of the planned brood would be ${inbreedingText(brood)}`}
        aside={`${sire.tag} (${sexWord[sire.sex]}) × ${dam.tag} (${sexWord[dam.sex]})`}
        actions={<Link to={`/pair?sire=${sire.id}&dam=${dam.id}`}>Show this pair</Link>}
      >
        <InbreedingPaths inbreeding={brood.inbreeding} chosen={chosen} onChoose={setChosen} />
      </Section>
    </>
  );
}
