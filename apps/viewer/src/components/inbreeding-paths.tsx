import type { Inbreeding } from '../api/fish.js';
import { inbreedingText } from '../wording/inbreeding-words.js';
import { restWords } from '../wording/list-ends.js';
import { percent } from '../wording/figures.js';
import { DataTable } from './data-table.js';
import { FishLink } from './fish-marks.js';
import styles from './inbreeding-paths.module.css';
import type { Column } from './data-table.js';

export type InbreedingPath = Inbreeding['paths'][number];

interface InbreedingPathsProps {
  inbreeding: Inbreeding;
  /** Index of the chosen path; choosing draws it in the pedigree. */
  chosen?: number | null;
  onChoose?: (index: number | null) => void;
}

function PathFish({ path }: { path: InbreedingPath }) {
  return (
    <span className={styles['path']}>
      {path.fish.map((fish, place) => (
        <span key={`${fish.id} ${place}`}>
          {place > 0 && <span aria-hidden="true">{place <= path.sireSteps ? ' ↑ ' : ' ↓ '}</span>}
          {fish.id === path.ancestor.id ? <b>{fish.tag}</b> : fish.tag}
        </span>
      ))}
    </span>
  );
}

/** How F came about: what each common ancestor adds, then every path with its steps and its term. */
export function InbreedingPaths({ inbreeding, chosen = null, onChoose }: InbreedingPathsProps) {
  if (inbreeding.coefficient === 0) {
    return (
      <p>No common ancestor of sire and dam is recorded, so F is 0 as far as the records go.</p>
    );
  }
  const listed = inbreeding.paths.map((path, index) => ({ path, index }));
  return (
    <>
      <h3>What each common ancestor adds</h3>
      <DataTable
        caption="What each common ancestor adds to F"
        low
        rows={inbreeding.byAncestor}
        rowKey={(share) => share.ancestor.id}
        columns={ancestorColumns()}
      />
      <RestOfAncestors inbreeding={inbreeding} />
      <h3>Paths from sire to dam</h3>
      <p className="lw-quiet">
        Each path adds (1/2)<sup>steps + 1</sup> × (1 + F of the common ancestor), where the steps
        of both sides are counted. {explained(inbreeding)}
      </p>
      <DataTable
        caption="Paths from sire to dam through common ancestors"
        low
        rows={listed}
        rowKey={({ index }) => String(index)}
        rowClass={({ index }) => (index === chosen ? 'lw-chosen' : undefined)}
        columns={pathColumns(onChoose, chosen)}
      />
    </>
  );
}

function pathColumns(
  onChoose: ((index: number | null) => void) | undefined,
  chosen: number | null,
): readonly Column<{ path: InbreedingPath; index: number }>[] {
  return [
    {
      key: 'path',
      title: 'Path (common ancestor in bold)',
      cell: ({ path, index }) =>
        onChoose === undefined ? (
          <PathFish path={path} />
        ) : (
          <button
            type="button"
            className="lw-link-button"
            aria-pressed={index === chosen}
            onClick={() => onChoose(index === chosen ? null : index)}
          >
            <PathFish path={path} />
          </button>
        ),
    },
    {
      key: 'steps',
      title: 'Steps',
      number: true,
      cell: ({ path }) => `${path.sireSteps} + ${path.damSteps}`,
    },
    {
      key: 'ancestor',
      title: 'F of ancestor',
      number: true,
      cell: ({ path }) =>
        inbreedingText({
          inbreedingCoefficient: path.ancestorInbreeding,
          inbreedingBasis: path.ancestorBasis,
        }),
    },
    {
      key: 'adds',
      title: 'Adds to F',
      number: true,
      cell: ({ path }) => percent(path.contribution, 3),
    },
  ];
}

function ancestorColumns(): readonly Column<Inbreeding['byAncestor'][number]>[] {
  return [
    {
      key: 'ancestor',
      title: 'Common ancestor',
      cell: (share) => <FishLink fish={share.ancestor} />,
    },
    {
      key: 'paths',
      title: 'Paths',
      number: true,
      cell: (share) => share.pathCount ?? 'too many to count',
    },
    {
      key: 'adds',
      title: 'Adds to F',
      number: true,
      cell: (share) => percent(share.contribution, 3),
    },
  ];
}

function RestOfAncestors({ inbreeding }: { inbreeding: Inbreeding }) {
  const { byAncestor, ancestorCount, coefficient } = inbreeding;
  const rest = restWords(byAncestor, ancestorCount, coefficient, 'common ancestors');
  return rest === null ? null : <p className="lw-quiet">{rest}</p>;
}

function explained({ complete, pathCount, listedCount, explainedShare }: Inbreeding): string {
  if (complete) return `All ${listedCount} paths are listed; they add up to F exactly.`;
  const total = pathCount === null ? 'too many paths to count' : `${pathCount} paths`;
  return `The ${listedCount} largest of ${total} are listed; together they make ${percent(explainedShare, 1)} of F.`;
}
