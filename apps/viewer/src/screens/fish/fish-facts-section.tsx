import { Link } from 'react-router';
import type { FishFacts } from '../../api/fish.js';
import { Facts, type Fact } from '../../components/facts.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { useMayAdd } from '../../session/may.js';
import { ageToday, today } from '../../wording/figures.js';
import { NOT_SHARED } from '../../wording/words.js';
import { loanWords } from '../../wording/hand-over-words.js';

const isGone = ({ disposition }: FishFacts): boolean =>
  disposition === 'DIED' || disposition === 'CULLED';

function hatchedText(fish: FishFacts): string | null {
  if (fish.hatchDate === null || isGone(fish)) return fish.hatchDate;
  return `${fish.hatchDate} (${ageToday(fish.hatchDate) ?? ''})`;
}

/** By the loan that it is away on, where there is one. */
function placeText({ place, swimsWith, handOvers, notShared }: FishFacts): string {
  const standing = handOvers.filter(({ state }) => state === 'MOVED' || state === 'RETURNING');
  const loan = standing.find(({ kind }) => kind === 'LOAN');
  const apart = standing.find(({ quarantineUntil }) => (quarantineUntil ?? '') >= today());
  const quarantine = apart === undefined ? '' : `, in quarantine until ${apart.quarantineUntil}`;
  if (loan !== undefined) return `${loanWords(loan)}${quarantine}`;
  if (place === 'HERE') return `here${quarantine}`;
  const unknown = notShared.includes('PLACE') ? NOT_SHARED : 'not known where';
  return `${swimsWith === null ? unknown : `with ${swimsWith.name}`}${quarantine}`;
}

function Decided({ fish }: { fish: FishFacts }) {
  const decided = [fish.dispositionDate, fish.dispositionReason].filter((part) => part !== null);
  return (
    <>
      <DispositionMark disposition={fish.disposition} />
      {decided.length > 0 && <span className="lw-quiet"> {decided.join(', ')}</span>}
    </>
  );
}

/** Where it comes from: its line, parents and spawn. */
const descent = ({ line, sire, dam, spawn }: FishFacts): Fact[] => [
  {
    name: 'Line',
    value: line && (
      <Link to={`/lines/${line.id}`}>
        {line.code} · {line.name}
      </Link>
    ),
  },
  { name: 'Sire', value: <FishLink fish={sire} /> },
  { name: 'Dam', value: <FishLink fish={dam} /> },
  { name: 'Spawn', value: spawn && <Link to={`/spawns/${spawn.id}`}>{spawn.tag}</Link> },
];

/** In which vessel it is, with a way to another; nothing of a fish that is not here. */
const keptIn = (fish: FishFacts): Fact[] =>
  isGone(fish) || fish.place !== 'HERE' || !fish.person.here
    ? []
    : [{ name: 'Kept in', value: <KeptIn fish={fish} /> }];

function KeptIn({ fish: { id, stay } }: { fish: FishFacts }) {
  const mayMove = useMayAdd();
  return (
    <>
      {stay == null ? (
        <span className="lw-quiet">no vessel on record</span>
      ) : (
        <Link to={`/vessels/${stay.vessel.id}`}>{stay.vessel.code}</Link>
      )}
      {mayMove && (
        <>
          {' '}
          <Link to={`/rack?fish=${id}`}>{stay == null ? 'Put it into one' : 'Move'}</Link>
        </>
      )}
    </>
  );
}

export function FishFactsSection({ fish }: { fish: FishFacts }) {
  return (
    <Section title="Facts">
      <Facts
        facts={[
          { name: 'Sex', value: <SexMark sex={fish.sex} /> },
          { name: 'Hatched', value: hatchedText(fish) },
          ...descent(fish),
          { name: 'Decision', value: <Decided fish={fish} /> },
          { name: isGone(fish) ? 'Swam' : 'Swims', value: placeText(fish) },
          ...keptIn(fish),
          { name: 'Recorded young', value: fish.offspringCount },
          {
            name: 'Record kept by',
            value: fish.person.here ? `${fish.person.name} (here)` : fish.person.name,
          },
          { name: 'Origin', value: fish.origin },
          {
            name: 'Note',
            value: fish.note ?? (fish.notShared.includes('NOTES') ? NOT_SHARED : null),
          },
        ]}
      />
    </Section>
  );
}
