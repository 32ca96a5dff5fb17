import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { GOODNESS_OF_FIT, SPAWN_EXPECTATION, type Cross } from '../../api/heredity.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { CrossClasses } from '../../components/cross-classes.js';
import { DataTable } from '../../components/data-table.js';
import { FitResult } from '../../components/fit-result.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { ClassBars } from '../../drawings/index.js';
import { percent, plural } from '../../wording/figures.js';
import { ClassCountForm } from './class-count-form.js';
import { observedDays, type ObservedDay } from './observed-counts.js';
import { useEntryWithdrawal } from './use-entry-withdrawal.js';

/** The brood as counted by class against what the parents' genotypes lead to expect. */
export function ObservedClassesSection({ spawn }: { spawn: SpawnFacts }) {
  const read = useRead(SPAWN_EXPECTATION, { spawnId: spawn.id });
  const [counting, setCounting] = useState(false);
  return (
    <Section
      title="Classes: expected and counted"
      actions={
        <Button size="xs" onClick={() => setCounting(true)} disabled={read.data === undefined}>
          Record class counts
        </Button>
      }
    >
      <Shown read={read} what="the expectation">
        {({ spawnExpectation }) => (
          <>
            <Comparison spawn={spawn} cross={spawnExpectation} />
            <Sheet
              title={`Record class counts of spawn ${spawn.tag}`}
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
          Nothing counted yet. Count the brood by class when the classes can be told apart, and the
          counts are set against these fractions.
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
          style={{ maxWidth: 200 }}
        />
      )}
      {cross.classes.length > 0 && (
        <ClassBars
          classes={cross.classes.map((each) => ({
            id: each.phenotype,
            label: each.phenotype,
            fraction: each.fraction,
            probability: each.probability,
            observed: day.byClass.get(each.phenotype) ?? 0,
          }))}
          broodSize={day.total}
          title={`Classes of spawn ${spawn.tag}`}
          caption={`${plural(day.total, 'fish', 'fish')} counted on ${day.on}, against what the parents' genotypes lead to expect.`}
        />
      )}
      {cross.classes.length > 1 && <FitOf cross={cross} day={day} />}
      {day.unexpected.length > 0 && cross.classes.length > 0 && (
        <p>
          Counted but not expected from these parents:{' '}
          {day.unexpected.map((each) => `${each.number} ${each.phenotype}`).join(', ')}. A parent’s
          genotype may be other than recorded, or a fish may be put in the wrong class.
        </p>
      )}
      <CountedRows spawn={spawn} on={day.on} />
      {cross.classes.length === 0 && <CrossClasses cross={cross} />}
    </>
  );
}

function FitOf({ cross, day }: { cross: Cross; day: ObservedDay }) {
  const observed = cross.classes.map((each) => ({
    name: each.phenotype,
    observed: day.byClass.get(each.phenotype) ?? 0,
    fraction: each.fraction,
  }));
  const counted = observed.some((each) => each.observed > 0);
  const read = useRead(GOODNESS_OF_FIT, { input: { observed } }, { pause: !counted });
  if (!counted) return null;
  return (
    <Shown read={read} what="the test of fit">
      {({ goodnessOfFit: fit }) => (
        <Why
          about="the test of fit"
          figure={`Fit: p = ${fit.pValue < 0.001 ? 'under 0.001' : fit.pValue.toFixed(3)}`}
        >
          <FitResult fit={fit} />
        </Why>
      )}
    </Shown>
  );
}

function CountedRows({ spawn, on }: { spawn: SpawnFacts; on: string }) {
  const withdrawal = useEntryWithdrawal(spawn.id);
  const counts = spawn.classCounts.filter((count) => count.countedOn === on);
  const total = counts.reduce((sum, count) => sum + count.number, 0);
  return (
    <>
      <DataTable
        caption={`Class counts of ${on}`}
        rows={counts}
        rowKey={(count) => count.id}
        columns={[
          { key: 'class', title: 'Class', cell: (count) => count.phenotype },
          { key: 'number', title: 'Counted', number: true, cell: (count) => count.number },
          {
            key: 'share',
            title: 'Share',
            number: true,
            cell: (count) => percent(count.number / total, 1),
          },
          {
            key: 'age',
            title: 'Age',
            number: true,
            cell: (count) => (count.ageDays === null ? '' : `${count.ageDays} d`),
          },
          {
            key: 'do',
            title: <span className="lw-heard">Actions</span>,
            cell: (count) => withdrawal.button(count.id, `count of ${count.phenotype}`),
          },
        ]}
      />
      {withdrawal.sheet}
    </>
  );
}
