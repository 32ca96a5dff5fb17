import { Button } from '@mantine/core';
import { useMemo, useState, type SetStateAction, type Dispatch } from 'react';
import { Link, useLocation, useNavigate, useParams, useSearchParams } from 'react-router';
import { PLANNED_BROOD, type PlannedBrood } from '../../api/pairings.js';
import { useRead } from '../../api/use-read.js';
import { FishFace } from '../../components/fish-face.js';
import { FishLink, PlaceMark } from '../../components/fish-marks.js';
import { InbreedingPaths } from '../../components/inbreeding-paths.js';
import {
  MainAncestors,
  ReasonList,
  TraitMeanTable,
  WarningList,
} from '../../components/pair-judgement.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { SeverityCounts } from '../../components/severity-mark.js';
import { Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { PicturedPedigree } from '../../panels/pictured-pedigree.js';
import { MayChangeContext } from '../../session/may.js';
import { FishPictures } from '../../panels/fish-pictures.js';
import { PlanPairingSheet } from '../../panels/plan-pairing-sheet.js';
import { plural } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { bandSentence, lineWithYoungWords } from '../../wording/pairing-words.js';
import { drawnBrood, drawnFish, drawnPath } from '../pedigree/drawn-fish.js';
import { BroodClasses } from './brood-classes.js';
import { choiceOf, type PairChoiceInput } from './choice-of-address.js';
import { ConditionSection } from './condition-section.js';
import { ExpectedYoungSection } from './expected-young-section.js';
import { TwoPairsSection } from './two-pairs-section.js';
import { PairOutlookSection } from './pair-outlook-section.js';
import styles from './pair-screen.module.css';
import type { PairWarning } from '../../api/judgement.js';
import type { PairReason } from '../../api/judgement.js';

/** What one pair would give, before it is made. */
export function PairScreen() {
  const { sireId = '', damId = '' } = useParams();
  const [search] = useSearchParams();
  // Judged by the choice of the list it was opened from, so that both say the same.
  const choice = choiceOf(search);
  const read = useRead(PLANNED_BROOD, { sireId, damId, broodSize: null, input: choice });
  return (
    <Shown read={read} what="the pair">
      {({ plannedBrood }) => (
        <MayChangeContext value={mayPair(plannedBrood)}>
          <Pair key={`${sireId} ${damId}`} brood={plannedBrood} input={choice} />
        </MayChangeContext>
      )}
    </Shown>
  );
}

/** Fish of lines that whoever is signed in may breed with, and fish of their own. */
const mayPair = ({ sire, dam }: PlannedBrood): boolean =>
  [sire, dam].every(({ mayChange, line }) => mayChange || line?.mayBreed === true);

function Pair({ brood, input }: { brood: PlannedBrood; input: PairChoiceInput | null }) {
  const { sire, dam, inbreedingCoefficient, warnings, reasons, mainAncestors } = brood;
  const { search } = useLocation();
  const refused = warnings.some(({ planning }) => planning === 'REFUSE');
  const [planning, setPlanning] = useState(false);
  const [chosen, setChosen] = useState<number | null>(null);
  return (
    <Screen
      title={`${sire.tag} by ${dam.tag}`}
      lead={
        <FishPictures ids={[sire.id, dam.id]}>
          <span className={styles['part']}>
            <FishFace fish={sire} size="card" /> Sire <FishLink fish={sire} />{' '}
            <PlaceMark fish={sire} />
          </span>{' '}
          <span className={styles['part']}>
            <FishFace fish={dam} size="card" /> Dam <FishLink fish={dam} /> <PlaceMark fish={dam} />
          </span>
        </FishPictures>
      }
      actions={
        <>
          {!refused && (
            <Button className="lw-primary" onClick={() => setPlanning(true)}>
              Plan this pair
            </Button>
          )}
          <Link to="/planned">Planned pairings</Link>
          <Link to={`/next-pairing${search}`}>Next pairing</Link>
        </>
      }
    >
      <WarningsAndReasons warnings={warnings} reasons={reasons} mainAncestors={mainAncestors} />
      <ExpectedYoungSection brood={brood} />
      <ConditionSection brood={brood} />
      <TwoPairsSection brood={brood} input={input} />
      <BroodInbreeding
        brood={brood}
        inbreedingCoefficient={inbreedingCoefficient}
        chosen={chosen}
        setChosen={setChosen}
      />
      <PairOutlookSection sire={sire} dam={dam} />
      <BroodClasses brood={brood} />
      <Section title="Parents’ means">
        <TraitMeanTable means={brood.traitMeans} />
      </Section>
      {planning && (
        <PlanPairingSheet
          sire={sire}
          dam={dam}
          warnings={warnings}
          onClose={() => setPlanning(false)}
          onPlanned={() => undefined}
        />
      )}
    </Screen>
  );
}

function WarningsAndReasons({
  warnings,
  reasons,
  mainAncestors,
}: {
  warnings: PairWarning[];
  reasons: PairReason[];
  mainAncestors: PlannedBrood['mainAncestors'][number][];
}) {
  return (
    <div className="lw-two-up">
      <Section
        title="Warnings"
        aside={warnings.length > 0 && <SeverityCounts warnings={warnings} />}
      >
        <WarningList warnings={warnings} />
      </Section>
      <Section title="Reasons">
        <ReasonList reasons={reasons} />
        <MainAncestors ancestors={mainAncestors} />
      </Section>
    </div>
  );
}

function BroodInbreeding({
  brood,
  inbreedingCoefficient,
  chosen,
  setChosen,
}: {
  brood: PlannedBrood;
  inbreedingCoefficient: number;
  chosen: number | null;
  setChosen: Dispatch<SetStateAction<number | null>>;
}) {
  return (
    <Section title="F of the brood">
      <Why
        about={`F of the brood is ${inbreedingText(brood)}`}
        figure={
          <>
            F {inbreedingText(brood)}: {bandSentence(inbreedingCoefficient)}
          </>
        }
      >
        <InbreedingPaths inbreeding={brood.inbreeding} chosen={chosen} onChoose={setChosen} />
      </Why>
      {brood.inbreedingNote !== null && <p className="lw-words">{brood.inbreedingNote}</p>}
      {brood.lineWithYoung !== null && (
        <p className="lw-words">{lineWithYoungWords(brood.lineWithYoung)}</p>
      )}
      <BroodPedigree brood={brood} chosen={chosen} />
    </Section>
  );
}

function BroodPedigree({ brood, chosen }: { brood: PlannedBrood; chosen: number | null }) {
  const navigate = useNavigate();
  const { sire, dam, slice, inbreeding } = brood;
  // The slice carries the brood itself, which the drawing adds from `planned`.
  const drawn = useMemo(() => drawnFish(slice).filter((each) => each.id !== 'planned'), [slice]);
  const planned = useMemo(() => [drawnBrood(brood)], [brood]);
  const path = chosen === null ? undefined : inbreeding.paths[chosen];
  const pathIds = useMemo(() => path?.fish.map((each) => each.id) ?? null, [path]);
  return (
    <>
      {slice.truncated && (
        <p className="lw-quiet">
          Only the nearest {plural(slice.fish.length, 'fish', 'fish')} are drawn. F counts them all.
        </p>
      )}
      {inbreeding.paths.length > 0 && chosen === null && (
        <p className="lw-quiet">
          Open “why?” and choose a path to follow it from sire to dam in the drawing.
        </p>
      )}
      <PicturedPedigree
        fish={drawn}
        focusId={sire.id}
        scope="all"
        planned={planned}
        highlightedPath={pathIds}
        onOpenFish={(id) => void navigate(drawnPath(slice, id))}
        height="min(64vh, 640px)"
        title={`Planned brood of ${sire.tag} and ${dam.tag}`}
      />
    </>
  );
}
