import { useMemo } from 'react';
import { useNavigate } from 'react-router';
import { FISH_PEDIGREE } from '../../api/fish.js';
import type { LineOutcross } from '../../api/outcross.js';
import { useRead } from '../../api/use-read.js';
import { Shown } from '../../components/states.js';
import { PedigreeDrawing } from '../../drawings/index.js';
import { leastPercent } from '../../wording/inbreeding-words.js';
import { drawnPath } from './drawn-fish.js';
import { branchOf, describedFish, joinedFish } from './outcross-branch.js';

interface OutcrossDrawingProps {
  outcross: LineOutcross;
  /** Generations of ancestors that are drawn. */
  up: number;
}

/** The fish of an outcross with their ancestors, and the cross and its backcrosses as a dotted branch. */
export function OutcrossDrawing({ outcross, up }: OutcrossDrawingProps) {
  const navigate = useNavigate();
  const { partner, mate, back } = outcross;
  const mates = useAncestors(mate?.id, up);
  const backs = useAncestors(back?.id, up);
  const partners = useAncestors(partner?.id, up);
  const slices = [mates, backs, partners].flatMap(({ data }) => data?.pedigree ?? []);
  const [first, second, third] = slices;
  const drawn = useMemo(
    () => [
      ...joinedFish([first, second, third].filter((one) => one !== undefined)),
      ...(partner === null ? [describedFish(mate?.sex)] : []),
    ],
    [first, second, third, partner, mate],
  );
  const branch = useMemo(() => branchOf(outcross), [outcross]);
  const complete = slices.length === (partner === null ? 2 : 3);
  return (
    <Shown
      read={complete ? mates : { ...mates, data: undefined, loading: true }}
      what="the pedigree"
    >
      {() => (
        <>
          <PedigreeDrawing
            fish={drawn}
            focusId={mate?.id ?? ''}
            scope="all"
            planned={branch}
            maxAncestorGenerations={up + branch.length}
            onOpenFish={(id) => {
              const slice = slices.find(({ fish }) => fish.some((one) => one.id === id));
              if (slice !== undefined) void navigate(drawnPath(slice, id));
            }}
            height="min(72vh, 720px)"
            title={`Outcross of ${mate?.tag ?? ''} to ${partner?.tag ?? 'a fish not on record'}`}
          />
          <p className="lw-quiet lw-words">{branchText(outcross)}</p>
        </>
      )}
    </Shown>
  );
}

const useAncestors = (id: string | undefined, up: number) =>
  useRead(FISH_PEDIGREE, { id: id ?? '', up, down: 0, limit: 600 }, { pause: id === undefined });

/** The branch in a sentence. */
const branchText = ({ partner, mate, back, backcrosses, basis }: LineOutcross): string => {
  const f = (backcrosses?.generations ?? []).map(({ inbreeding }) =>
    leastPercent(inbreeding, basis === 'KNOWN', 1),
  );
  const [cross, ...rest] = f;
  return `Dotted, not bred yet: ${mate?.tag ?? ''} × ${partner?.tag ?? 'the fish not on record'}, F ${cross ?? ''}; its young back to ${back?.tag ?? ''}, F ${rest.join(', ')}.`;
};
