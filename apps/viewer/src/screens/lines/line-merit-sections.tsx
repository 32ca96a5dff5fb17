import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { LINE_LOAD, type LineLoad, TRAIT_LOAD } from '../../api/merit.js';
import { TRAITS } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { WhenSeen } from '../../components/when-seen.js';
import { InbreedingCostShown } from '../../panels/inbreeding-cost-shown.js';
import { SizeChangeShown } from '../../panels/size-change-shown.js';
import { TrendRead } from '../../panels/trend-read.js';
import { plainNumber, plural } from '../../wording/figures.js';
import {
  broodSizeWords,
  broodsLeftOutText,
  scoresLeftOutText,
  stageWords,
} from '../../wording/load-words.js';
import { meritScale } from '../../wording/merit-scale.js';
import { decimalsFor, shareChange, signedText } from '../../wording/merit-words.js';
import type { TraitKind } from '../../wording/words.js';

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
                className="lw-choice"
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

/** What inbreeding costs in the line: stage by stage, in the size of broods and of fish. */
export function InbreedingCostSection({ line }: LineProps) {
  const traits = useRead(TRAITS, { includeWithdrawn: false });
  return (
    <Section title="What does inbreeding cost?">
      <p className="lw-quiet">
        From the broods of line {line.code} that are recorded here, and no others: nothing of other
        people’s records is pooled in, and nothing of yours is sent anywhere.
      </p>
      <WhenSeen>
        <Cost line={line} traits={(traits.data?.traits ?? []).filter(isMeasured)} />
      </WhenSeen>
    </Section>
  );
}

interface MeasuredTrait {
  readonly id: string;
  readonly name: string;
  readonly unit: string | null;
  readonly kind: TraitKind;
}

/** What the choice of the list stands for: a stage, a size of broods, or a trait by its id. */
function Cost({ line, traits }: LineProps & { traits: readonly MeasuredTrait[] }) {
  const read = useRead(LINE_LOAD, { lineId: line.id });
  const [chosen, setChosen] = useState('stage FREE_SWIMMING');
  return (
    <Shown read={read} what="what inbreeding costs">
      {({ lineInbreedingLoad: load }) => (
        <>
          <NativeSelect
            className="lw-choice"
            label="In what"
            value={chosen}
            data={[
              ...load.stages.map(({ stage }) => ({
                value: `stage ${stage}`,
                label: stageWords[stage].title,
              })),
              ...load.broodSizes.map(({ size }) => ({
                value: `size ${size}`,
                label: broodSizeWords[size].title,
              })),
              ...traits.map(({ id, name }) => ({ value: id, label: `Size: ${name}` })),
            ]}
            onChange={(event) => setChosen(event.currentTarget.value)}
          />
          <ChosenCost line={line} load={load} traits={traits} chosen={chosen} />
          <LeftOut said={broodsLeftOutText(load.broodsLeftOut)} />
        </>
      )}
    </Shown>
  );
}

function LeftOut({ said }: { said: string | null }) {
  return said === null ? null : <p className="lw-quiet">{said}</p>;
}

function ChosenCost({
  line,
  load,
  traits,
  chosen,
}: LineProps & { load: LineLoad; traits: readonly MeasuredTrait[]; chosen: string }) {
  const stage = load.stages.find((one) => `stage ${one.stage}` === chosen);
  if (stage !== undefined) return <InbreedingCostShown key={stage.stage} load={stage} />;
  const size = load.broodSizes.find((one) => `size ${one.size}` === chosen);
  if (size !== undefined)
    return (
      <SizeChangeShown
        key={size.size}
        what={broodSizeWords[size.size].what}
        rests={plural(size.broods, 'brood')}
        words={shareChange}
        shown={broodSizeWords[size.size].shown}
        sizeWords={(count) => plainNumber(count, 0)}
        asShares
        load={size}
      />
    );
  const trait = traits.find(({ id }) => id === chosen);
  return trait === undefined ? null : <TraitCost key={trait.id} line={line} trait={trait} />;
}

function TraitCost({ line, trait }: LineProps & { trait: MeasuredTrait }) {
  const read = useRead(TRAIT_LOAD, { traitId: trait.id, lineId: line.id });
  const { unit } = meritScale(trait);
  return (
    <Shown read={read} what="what inbreeding does to it">
      {({ traitInbreedingLoad: load }) => {
        const [first] = load.changes;
        const known = first === undefined ? 1 : (first.high - first.low) / 2;
        return (
          <>
            <SizeChangeShown
              what={trait.name}
              rests={`${plural(load.fish, 'fish', 'fish')} of ${plural(load.broods, 'brood')}`}
              words={(change) => signedText(change, unit, known)}
              shown={`Mean ${trait.name} of each brood, at the mean season, sex, age and F of the dam${unit === null ? '' : `, ${unit}`}`}
              sizeWords={(size) => plainNumber(size, decimalsFor(known))}
              load={load}
            />
            <LeftOut said={scoresLeftOutText(load.looksLeftOut)} />
          </>
        );
      }}
    </Shown>
  );
}
