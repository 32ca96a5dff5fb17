import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { LinePlan, PlanStep } from '../../api/line-plan.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { percent } from '../../wording/figures.js';
import { broodName, lateText, monthsText, youngText } from '../../wording/plan-words.js';
import { stepTexts } from '../../wording/route-words.js';
import { SpawnOfPlanSheet } from './spawn-of-plan-sheet.js';

/** Each brood of a plan: what was planned of it beside what came. */
export function PlanSteps({ plan }: { plan: LinePlan }) {
  const [choosing, setChoosing] = useState<PlanStep | null>(null);
  const texts = stepTexts({ ...plan, broods: plan.steps });
  return (
    <>
      <DataTable
        caption="Broods of the plan"
        rows={plan.steps.map((step, k) => ({ step, text: texts[k] ?? '' }))}
        rowKey={({ step }) => String(step.brood)}
        columns={columnsOf(plan, setChoosing)}
      />
      {choosing !== null && (
        <SpawnOfPlanSheet plan={plan} step={choosing} onClose={() => setChoosing(null)} />
      )}
    </>
  );
}

interface Row {
  readonly step: PlanStep;
  /** Who is put to whom. */
  readonly text: string;
}

const columnsOf = (
  { steps, adoptedOn, fryPerBrood }: LinePlan,
  onChoose: (step: PlanStep) => void,
): readonly Column<Row>[] => [
  {
    key: 'brood',
    title: 'Brood',
    cell: ({ step, text }) => (
      <>
        {capital(broodName(step.brood, steps))}
        <div className="lw-quiet">{text}</div>
      </>
    ),
  },
  {
    key: 'came',
    title: 'What came',
    cell: ({ step }) => (
      <>
        <Came step={step} />
        <div className="lw-phone">
          <When step={step} since={adoptedOn} />
          <div>
            <Young step={step} wanted={fryPerBrood} />
          </div>
          <div>
            F {inbreedingParts(step).join(', ')}; chance by then {percent(step.chanceByThen, 0)}
          </div>
        </div>
        <ChooseSpawn name={broodName(step.brood, steps)} onChoose={() => onChoose(step)} />
      </>
    ),
  },
  {
    key: 'time',
    title: 'Time',
    wideOnly: true,
    cell: ({ step }) => <When step={step} since={adoptedOn} />,
  },
  {
    key: 'young',
    title: 'Young',
    wideOnly: true,
    cell: ({ step }) => <Young step={step} wanted={fryPerBrood} />,
  },
  {
    key: 'f',
    title: 'F',
    wideOnly: true,
    unbroken: true,
    cell: ({ step }) => inbreedingParts(step).map((part) => <div key={part}>{part}</div>),
  },
  {
    key: 'chance',
    title: 'Chance by then',
    number: true,
    wideOnly: true,
    cell: ({ step }) => percent(step.chanceByThen, 0),
  },
];

function ChooseSpawn({ name, onChoose }: { name: string; onChoose: () => void }) {
  return (
    <div>
      <Button
        size="compact-sm"
        variant="subtle"
        aria-label={`Choose the spawn of ${name}`}
        onClick={onChoose}
      >
        Choose the spawn
      </Button>
    </div>
  );
}

/** "planned 0.9 %", and when it spawned "came 1.2 %". */
const inbreedingParts = ({ plannedInbreeding, inbreeding }: PlanStep): string[] => [
  `planned ${percent(plannedInbreeding, 1)}`,
  ...(inbreeding === null ? [] : [`came ${percent(inbreeding, 1)}`]),
];

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function Came({ step }: { step: PlanStep }) {
  const { spawn, state, chosen, failedSpawns, sire, dam } = step;
  return (
    <>
      {spawn !== null ? (
        <Link to={`/spawns/${spawn.id}`}>{spawn.tag}</Link>
      ) : state === 'NOW' ? (
        'to be paired now'
      ) : (
        'waits for an earlier brood'
      )}
      {spawn === null && sire.fish !== null && dam.fish !== null && (
        <div>
          <Link to={`/pair?sire=${sire.fish.id}&dam=${dam.fish.id}`}>Show this pair</Link>
        </div>
      )}
      {chosen && <div className="lw-quiet">as you said</div>}
      {failedSpawns.length > 0 && (
        <div className="lw-quiet">Failed: {failedSpawns.map(({ tag }) => tag).join(', ')}</div>
      )}
    </>
  );
}

function When({ step, since }: { step: PlanStep; since: string }) {
  const { due, spawn, daysLate } = step;
  const on = spawn?.on ?? null;
  return (
    <>
      planned {due} ({monthsText(since, due)})
      {on !== null && (
        <div>
          came {on} ({monthsText(since, on)})
        </div>
      )}
      {daysLate !== null && (spawn !== null || daysLate > 0) && (
        <div className="lw-quiet">
          {spawn === null ? `${lateText(daysLate)}, so far` : lateText(daysLate)}
        </div>
      )}
    </>
  );
}

function Young({ step, wanted }: { step: PlanStep; wanted: number }) {
  const { spawn, counted, recorded, unsorted, males, females } = step;
  if (spawn === null) return `${wanted} to raise`;
  return (
    <>
      {wanted} to raise; {counted === null ? 'none counted' : `${counted} counted`}
      {(recorded ?? 0) > 0 && (
        <div>
          {recorded} on record, {unsorted} not sorted; {males} males and {females} females in use.{' '}
          {youngText(step)}
        </div>
      )}
    </>
  );
}
