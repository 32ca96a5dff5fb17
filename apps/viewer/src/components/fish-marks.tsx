import { clsx } from 'clsx';
import { Link } from 'react-router';
import {
  dispositionWord,
  placeWords,
  sexWord,
  type Disposition,
  type Sex,
} from '../wording/words.js';
import styles from './fish-marks.module.css';

// No dot and no filling: in the nomenclature a dot is a carrier, and a filled symbol an affected individual.
const outline: Record<Sex, React.ReactNode> = {
  MALE: <rect x="2" y="2" width="10" height="10" />,
  FEMALE: <circle cx="7" cy="7" r="5.2" />,
  UNSEXED: <path d="M7 1.2 12.8 7 7 12.8 1.2 7z" />,
  UNCERTAIN: (
    <>
      <path d="M7 1.2 12.8 7 7 12.8 1.2 7z" />
      <path d="M5.6 5.7c0-2 2.8-2 2.8-.2 0 1.1-1.4 1.1-1.4 2.2M7 9.1v.9" strokeWidth="1.1" />
    </>
  ),
};

/** Pedigree symbol (square male, circle female, diamond not known) with the word beside it. */
export function SexMark({ sex, bare = false }: { sex: Sex; bare?: boolean }) {
  return (
    <span className={styles['sex']}>
      <svg
        viewBox="0 0 14 14"
        width="13"
        height="13"
        fill="none"
        stroke="currentColor"
        strokeWidth="1.7"
        aria-hidden="true"
      >
        {outline[sex]}
      </svg>
      <span className={bare ? 'lw-heard' : undefined}>{sexWord[sex]}</span>
    </span>
  );
}

export function DispositionMark({ disposition }: { disposition: Disposition }) {
  return (
    <span
      className={clsx(styles['disposition'], styles[`disposition-${disposition.toLowerCase()}`])}
    >
      {dispositionWord[disposition]}
    </span>
  );
}

/** With whom a fish swims that is not here; nothing of one that is. */
export function PlaceMark({ fish }: { fish: Parameters<typeof placeWords>[0] }) {
  const words = placeWords(fish);
  return words === null ? null : <span className="lw-small">{words}</span>;
}

interface NamedFish {
  /** Null of a fish whose record is not shared with whoever is signed in: it has no page for them. */
  id: string | null;
  tag: string;
  sex?: Sex;
  /** Of a parent that nobody knows: the spawn whose parent it is. */
  unknownParentOf?: string | null;
}

/** A parent that nobody knows has no page of its own: its spawn has one. */
const pathOfFish = ({ id, unknownParentOf }: NamedFish & { id: string }): string =>
  unknownParentOf == null ? `/fish/${id}` : `/spawns/${unknownParentOf}`;

export function FishLink({ fish }: { fish: NamedFish | null }) {
  if (fish === null) return <span className="lw-quiet">unknown</span>;
  const words = (
    <>
      {fish.sex !== undefined && <SexMark sex={fish.sex} bare />}
      {fish.tag}
    </>
  );
  const { id } = fish;
  if (id === null) return <span className="lw-tag lw-quiet">{words}</span>;
  return (
    <Link className="lw-tag" to={pathOfFish({ ...fish, id })}>
      {words}
    </Link>
  );
}

/** "sire × dam", each a link. */
export function PairLinks({ sire, dam }: { sire: NamedFish | null; dam: NamedFish | null }) {
  return (
    <span className={styles['pair']}>
      <FishLink fish={sire} /> <span aria-label="by">×</span> <FishLink fish={dam} />
    </span>
  );
}
