import { Link } from 'react-router';
import type { FishFacts } from '../../api/fish.js';
import { Facts } from '../../components/facts.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { ageToday } from '../../wording/figures.js';

export function FishFactsSection({ fish }: { fish: FishFacts }) {
  const age = ageToday(fish.hatchDate);
  const gone = fish.disposition === 'DIED' || fish.disposition === 'CULLED';
  const decided = [fish.dispositionDate, fish.dispositionReason].filter((part) => part !== null);
  return (
    <Section title="Facts">
      <Facts
        facts={[
          { name: 'Sex', value: <SexMark sex={fish.sex} /> },
          {
            name: 'Hatched',
            value:
              fish.hatchDate === null
                ? null
                : gone
                  ? fish.hatchDate
                  : `${fish.hatchDate} (${age ?? ''})`,
          },
          {
            name: 'Line',
            value:
              fish.line === null ? null : (
                <Link to={`/lines/${fish.line.id}`}>
                  {fish.line.code} · {fish.line.name}
                </Link>
              ),
          },
          { name: 'Sire', value: <FishLink fish={fish.sire} /> },
          { name: 'Dam', value: <FishLink fish={fish.dam} /> },
          {
            name: 'Spawn',
            value:
              fish.spawn === null ? null : (
                <Link to={`/spawns/${fish.spawn.id}`}>{fish.spawn.tag}</Link>
              ),
          },
          {
            name: 'Decision',
            value: (
              <>
                <DispositionMark disposition={fish.disposition} />
                {decided.length > 0 && <span className="lw-quiet"> {decided.join(', ')}</span>}
              </>
            ),
          },
          {
            name: gone ? 'Swam' : 'Swims',
            value:
              fish.place === 'HERE'
                ? 'here'
                : fish.swimsWith === null
                  ? 'not known where'
                  : `with ${fish.swimsWith.name}`,
          },
          { name: 'Recorded young', value: fish.offspringCount },
          {
            name: 'Record kept by',
            value: fish.person.here ? `${fish.person.name} (here)` : fish.person.name,
          },
          { name: 'Origin', value: fish.origin },
          { name: 'Note', value: fish.note },
        ]}
      />
    </Section>
  );
}
