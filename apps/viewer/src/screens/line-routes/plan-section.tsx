import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { LINE_PLAN, type LinePlan, WITHDRAW_PLAN } from '../../api/line-plan.js';
import { useRead } from '../../api/use-read.js';
import { Facts } from '../../components/facts.js';
import { Cautions, Done } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { percent, plural } from '../../wording/figures.js';
import { planDoubts, problemText, reachedText } from '../../wording/plan-words.js';
import { triesText, routeName } from '../../wording/route-words.js';
import { PlanSteps } from './plan-steps.js';

interface PlanSectionProps {
  lineId: string;
  /** What leads to the search of routes; absent on the page that has it. */
  search?: boolean;
}

/** The plan of a line: what was expected, what came, and whether it is off course. */
export function PlanSection({ lineId, search = false }: PlanSectionProps) {
  const read = useRead(LINE_PLAN, { lineId });
  return (
    <Section
      title="Plan"
      actions={search && <Link to={`/lines/${lineId}/routes`}>Search routes</Link>}
    >
      <Shown read={read} what="the plan">
        {({ linePlan }) =>
          linePlan === null ? (
            <Empty>
              The line has no plan of several generations. Open a route and adopt it, and it is
              followed here.
            </Empty>
          ) : (
            <Plan plan={linePlan} lineId={lineId} />
          )
        }
      </Shown>
    </Section>
  );
}

function Plan({ plan, lineId }: { plan: LinePlan; lineId: string }) {
  const [withdrawing, setWithdrawing] = useState(false);
  return (
    <>
      <p>
        <strong>{routeName({ ...plan, broods: plan.steps })}</strong>
        {plan.note !== null && `: ${plan.note}`}
      </p>
      <PlanState plan={plan} lineId={lineId} />
      <Cautions of={planDoubts(plan)} />
      <PlanFacts plan={plan} />
      <PlanSteps plan={plan} />
      <div className="lw-form-buttons">
        <Button onClick={() => setWithdrawing(true)}>Take this plan back</Button>
      </div>
      <WithdrawRecord
        mutation={WITHDRAW_PLAN}
        record={plan}
        title="Take this plan back"
        what="the plan of the line"
        verb="Take back"
        opened={withdrawing}
        onClose={() => setWithdrawing(false)}
      />
    </>
  );
}

function PlanState({ plan, lineId }: { plan: LinePlan; lineId: string }) {
  const { state, problems, steps, waiting } = plan;
  return (
    <>
      {state === 'ON_COURSE' && <p>On course.</p>}
      {state === 'FINISHED' && (
        <p>Its last brood has spawned. Sort it, and see whether enough of its young pass.</p>
      )}
      {state === 'REACHED' && (
        <Done>
          <p>{reachedText(plan)}</p>
        </Done>
      )}
      {problems.length > 0 && (
        <div className="lw-notice lw-notice-caution" role="note">
          <p>
            <strong>
              {state === 'REACHED' ? 'What came otherwise than planned.' : 'Off course.'}
            </strong>
          </p>
          <ul>
            {problems.map((problem) => {
              const text = problemText(problem, steps);
              return <li key={text}>{text}</li>;
            })}
          </ul>
          <p hidden={state === 'REACHED'}>
            What to do: search again from today, with the fish that are there now, and adopt what is
            best then. <Link to={`/lines/${lineId}/routes`}>Search routes again</Link>
          </p>
        </div>
      )}
      {waiting !== null && (
        <p className="lw-quiet">
          What the young may carry is still worked out: whether an allele was lost is not known yet.
        </p>
      )}
    </>
  );
}

function PlanFacts({ plan }: { plan: LinePlan }) {
  const { chance, simulations, low, high, chanceLeft, generationsDone } = plan;
  const generations = Math.max(0, ...plan.steps.map(({ generation }) => generation));
  return (
    <Facts
      facts={[
        { name: 'Holds from', value: plan.adoptedOn },
        {
          name: 'Target',
          value: `${percent(plan.share, 0)} of a brood pass, F at most ${percent(plan.ceiling, 0)}`,
        },
        {
          name: 'Chance when it was adopted',
          value: `${triesText(chance, simulations)} (95 % interval ${percent(low, 0)} to ${percent(high, 0)}, ${plural(simulations, 'simulation')})`,
        },
        {
          name: 'Chance now',
          value:
            plan.reachedBy !== null
              ? 'the target is reached'
              : chanceLeft === null
                ? 'in each simulation the target was reached by now'
                : `${percent(chanceLeft, 0)} if no brood so far has reached the target, by the same simulations; search again for the chance of the fish that are there now`,
        },
        { name: 'Generations', value: `${generationsDone} of ${generations} have spawned` },
        {
          name: 'Months expected',
          value:
            plan.meanMonths === null ? 'the target was never reached' : Math.round(plan.meanMonths),
        },
        {
          name: 'Young to raise',
          value: `${plan.fryPerBrood} of each brood, ${Math.round(plan.fry).toLocaleString('en')} in all on average`,
        },
      ]}
    />
  );
}
