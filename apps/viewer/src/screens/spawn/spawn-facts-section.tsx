import { Link } from 'react-router';
import type { SpawnFacts } from '../../api/spawns.js';
import { Facts } from '../../components/facts.js';
import { FishLink } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { ageToday } from '../../wording/figures.js';
import { NOT_SHARED } from '../../wording/words.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';

function BroodInbreeding({ spawn }: { spawn: SpawnFacts }) {
  const { sire, dam } = spawn;
  return (
    <>
      <strong>{inbreedingText(spawn)}</strong>
      {sire?.id != null && dam?.id != null && (
        <>
          {' '}
          <Link to={`/fish/${sire.id}/pedigree?with=${dam.id}`}>why?</Link>
        </>
      )}
    </>
  );
}

const hatchedText = ({ hatchDate }: SpawnFacts): string | null =>
  hatchDate === null ? null : `${hatchDate} (${ageToday(hatchDate) ?? ''})`;

export function SpawnFactsSection({ spawn }: { spawn: SpawnFacts }) {
  const { line, pairing, person } = spawn;
  const noted = spawn.notShared.includes('NOTES') ? NOT_SHARED : null;
  const outcome = `failed: ${spawn.failedReason ?? (noted === null ? 'no reason recorded' : `reason ${noted}`)}`;
  return (
    <Section title="Facts">
      <Facts
        facts={[
          { name: 'Sire', value: <FishLink fish={spawn.sire} /> },
          { name: 'Dam', value: <FishLink fish={spawn.dam} /> },
          { name: 'F of the brood', value: <BroodInbreeding spawn={spawn} /> },
          { name: 'Line', value: line && <Link to={`/lines/${line.id}`}>{line.code}</Link> },
          { name: 'Spawned', value: spawn.spawnedOn },
          { name: 'Hatched', value: hatchedText(spawn) },
          { name: 'Purpose', value: spawn.purpose ?? noted },
          ...(spawn.failed ? [{ name: 'Outcome', value: outcome }] : []),
          {
            name: 'Planned',
            value: pairing === null ? 'recorded without a plan' : `on ${pairing.plannedOn}`,
          },
          { name: 'Record kept by', value: person.here ? `${person.name} (here)` : person.name },
          { name: 'Note', value: spawn.note ?? noted },
        ]}
      />
    </Section>
  );
}
