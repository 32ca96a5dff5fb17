import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { LINE_LOAD, type StageLoad } from '../../api/merit.js';
import { TRAITS } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { WhenSeen } from '../../components/when-seen.js';
import { InbreedingCostShown } from '../../panels/inbreeding-cost-shown.js';
import { TrendRead } from '../../panels/trend-read.js';
import { stageWords } from '../../wording/load-words.js';

interface LineProps {
  line: { readonly id: string; readonly code: string };
}

/** Is the line moving in a trait: a picture first, figures behind it. */
export function MovingSection({ line }: LineProps) {
  const read = useRead(TRAITS, { includeWithdrawn: false });
  const [chosen, setChosen] = useState<string | null>(null);
  return (
    <Section title="Is it moving?">
      <Shown read={read} what="the traits">
        {({ traits }) => {
          const trait =
            traits.find(({ id }) => id === chosen) ?? traits.find(isMeasured) ?? traits[0];
          if (trait === undefined)
            return <Empty>No trait is kept yet: record one, then score fish of this line.</Empty>;
          return (
            <>
              <NativeSelect
                label="Trait"
                value={trait.id}
                data={traits.map(({ id, name }) => ({ value: id, label: name }))}
                onChange={(event) => setChosen(event.currentTarget.value)}
              />
              <WhenSeen>
                <TrendRead key={trait.id} trait={trait} line={line} />
              </WhenSeen>
            </>
          );
        }}
      </Shown>
    </Section>
  );
}

const isMeasured = ({ kind }: { kind: string }): boolean => kind === 'MEASURED';

/** What inbreeding costs in the line, stage by stage. */
export function InbreedingCostSection({ line }: LineProps) {
  return (
    <Section title="What does inbreeding cost?">
      <WhenSeen>
        <CostByStage line={line} />
      </WhenSeen>
    </Section>
  );
}

function CostByStage({ line }: LineProps) {
  const read = useRead(LINE_LOAD, { lineId: line.id });
  const [chosen, setChosen] = useState<StageLoad['stage']>('FREE_SWIMMING');
  return (
    <Shown read={read} what="what inbreeding costs">
      {({ lineInbreedingLoad: { stages } }) => {
        const load = stages.find(({ stage }) => stage === chosen) ?? stages[0];
        return (
          <>
            <NativeSelect
              label="Stage"
              value={chosen}
              data={stages.map(({ stage }) => ({
                value: stage,
                label: stageWords[stage].title,
              }))}
              onChange={(event) => setChosen(event.currentTarget.value as StageLoad['stage'])}
            />
            {load !== undefined && <InbreedingCostShown key={load.stage} load={load} />}
          </>
        );
      }}
    </Shown>
  );
}
