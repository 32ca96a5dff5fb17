import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { SPAWN_EXPECTATION, type Cross } from '../../api/heredity.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { CrossClasses } from '../../components/cross-classes.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { ClassCountForm } from './class-count-form.js';
import { observedDays } from './observed-counts.js';
import { Scoring } from './observed-scoring.js';

/** The brood as counted by class against what the parents' genotypes lead to expect. */
export function ObservedClassesSection({ spawn }: { spawn: SpawnFacts }) {
  const read = useRead(SPAWN_EXPECTATION, { spawnId: spawn.id });
  const [counting, setCounting] = useState(false);
  return (
    <Section
      title="Classes: expected and counted"
      actions={
        <Button size="xs" onClick={() => setCounting(true)} disabled={read.data === undefined}>
          Count by expected class
        </Button>
      }
    >
      <Shown read={read} what="the expectation">
        {({ spawnExpectation }) => (
          <>
            <Comparison spawn={spawn} cross={spawnExpectation} />
            <Sheet
              title={`Count spawn ${spawn.tag} by expected class`}
              opened={counting}
              onClose={() => setCounting(false)}
            >
              <ClassCountForm
                spawnId={spawn.id}
                cross={spawnExpectation}
                onClose={() => setCounting(false)}
              />
            </Sheet>
          </>
        )}
      </Shown>
    </Section>
  );
}

function Comparison({ spawn, cross }: { spawn: SpawnFacts; cross: Cross }) {
  const days = observedDays(spawn, cross);
  const [chosen, setChosen] = useState<string | null>(null);
  const day = days.find((each) => each.on === chosen) ?? days[0];
  if (day === undefined) {
    return (
      <>
        <CrossClasses cross={cross} />
        <Empty>
          Nothing counted yet. Count the brood by class when the classes can be distinguished; the
          counts are then compared with these fractions.
        </Empty>
      </>
    );
  }
  return (
    <>
      {days.length > 1 && (
        <NativeSelect
          label="Counted on"
          value={day.on}
          onChange={(event) => setChosen(event.currentTarget.value)}
          data={days.map((each) => each.on)}
          className="lw-narrow-field"
        />
      )}
      {day.scorings.map((scoring) => (
        <Scoring key={scoring.key} spawn={spawn} on={day.on} scoring={scoring} />
      ))}
      {day.scorings.length > 1 && (
        <p className="lw-quiet">
          Each set of loci is compared with its own expectation: the same fish may be in more than
          one of them, so their numbers are not added up.
        </p>
      )}
      {cross.classes.length === 0 && <CrossClasses cross={cross} />}
    </>
  );
}
