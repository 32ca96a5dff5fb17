import { useMemo, useState } from 'react';
import { Link, useNavigate } from 'react-router';
import {
  FISH_INBREEDING,
  FISH_PEDIGREE,
  type FishFacts,
  type PedigreeSlice,
} from '../../api/fish.js';
import { useRead } from '../../api/use-read.js';
import { InbreedingPaths } from '../../components/inbreeding-paths.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { PicturedPedigree } from '../../panels/pictured-pedigree.js';
import { plainNumber } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { drawnFish, drawnPath } from '../pedigree/drawn-fish.js';
import { UnknownOrigin } from './unknown-origin.js';

/** F with its paths, and the pedigree in which a chosen path is drawn. */
export function FishPedigreeSection({ fish }: { fish: FishFacts }) {
  const [chosen, setChosen] = useState<number | null>(null);
  const inbreeding = useRead(FISH_INBREEDING, { id: fish.id, limit: 50 });
  const slice = useRead(FISH_PEDIGREE, { id: fish.id, up: 5, down: 1, limit: 400 });
  const path = chosen === null ? undefined : inbreeding.data?.fish.inbreeding.paths[chosen];
  const pathIds = useMemo(() => path?.fish.map((each) => each.id) ?? null, [path]);
  return (
    <Section
      title="Inbreeding and pedigree"
      actions={<Link to={`/fish/${fish.id}/pedigree`}>Whole pedigree</Link>}
    >
      <Why about={`F of ${fish.tag}`} figure={`F ${inbreedingText(fish)}`}>
        <p>
          F is the chance that both copies of a gene in this fish come from one copy in a common
          ancestor of its sire and dam. It counts only what is recorded: this pedigree is known over{' '}
          {plainNumber(fish.completeGenerationEquivalents, 1)} full generations. Unknown parents are
          counted as unrelated.
        </p>
        <Shown read={inbreeding} what="the paths">
          {(data) => (
            <InbreedingPaths
              inbreeding={data.fish.inbreeding}
              chosen={chosen}
              onChoose={setChosen}
            />
          )}
        </Shown>
      </Why>
      <UnknownOrigin fish={fish} />
      <p className="lw-quiet">
        Recorded pedigree: {plainNumber(fish.completeGenerationEquivalents, 1)} full generations.
        Choose a path under “why?” to see it drawn.
      </p>
      <Shown read={slice} what="the pedigree">
        {(data) => <Drawing slice={data.pedigree} tag={fish.tag} path={pathIds} />}
      </Shown>
    </Section>
  );
}

interface DrawingProps {
  slice: PedigreeSlice;
  tag: string;
  path: readonly string[] | null;
}

function Drawing({ slice, tag, path }: DrawingProps) {
  const navigate = useNavigate();
  const fish = useMemo(() => drawnFish(slice), [slice]);
  return (
    <PicturedPedigree
      fish={fish}
      focusId={slice.focusId}
      highlightedPath={path}
      onOpenFish={(id) => void navigate(drawnPath(slice, id))}
      height="min(60vh, 480px)"
      title={`Pedigree of ${tag}`}
    />
  );
}
