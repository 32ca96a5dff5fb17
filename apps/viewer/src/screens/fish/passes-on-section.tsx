import { FISH_MERIT, type FishMerit } from '../../api/merit.js';
import type { FishFacts } from '../../api/fish.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { WhenSeen } from '../../components/when-seen.js';
import { OtherTrait } from '../../panels/other-trait.js';
import { PassedOn, PassedOnPicture } from '../../panels/passed-on.js';
import { SelectedScores } from '../../panels/selected-scores.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { untilThen } from '../../wording/merit-advice.js';
import { knownOf, openFirst } from './merit-known.js';

/** What a fish passes on of each scored trait: not its score, but what its young can be expected at. */
export function PassesOnSection({ fish }: { fish: FishFacts }) {
  return (
    <Section title="What it passes on">
      <WhenSeen>
        <PassesOn fish={fish} />
      </WhenSeen>
    </Section>
  );
}

function PassesOn({ fish }: { fish: FishFacts }) {
  const read = useRead(FISH_MERIT, { id: fish.id });
  return (
    <Shown
      read={read}
      what="what it passes on (the first time after a change it may take a minute)"
    >
      {({ fish: { merit } }) => (
        <>
          {merit.length === 0 && (
            <Empty>
              No fish is scored yet. Score a random dozen of a brood before you sort it, then a
              second brood with other parents: what fish pass on shows between families.
            </Empty>
          )}
          <Known fish={fish} merit={merit} />
          {merit.map((one) => (
            <NotKnown key={one.trait.id} fish={fish} merit={one} onDone={read.reload} />
          ))}
        </>
      )}
    </Shown>
  );
}

function Known({ fish, merit }: { fish: FishFacts; merit: readonly FishMerit[] }) {
  const known = knownOf(merit);
  const first = openFirst(known);
  const traits = merit.map(({ trait }) => trait);
  return (
    <>
      <SelectedScores
        of={known.map(({ trait, selectionCaution }) => ({ name: trait.name, selectionCaution }))}
      />
      {known.map((one) => (
        <article key={one.trait.id} aria-label={one.trait.name}>
          <h3>{one.trait.name}</h3>
          <PassedOn fish={fish} merit={one} />
          <PassedOnPicture fish={fish} merit={one} open={one.trait.id === first} />
          {merit.length > 1 && (
            <details className="lw-folded">
              <summary>{one.trait.name} together with another trait</summary>
              <OtherTrait fish={fish} trait={one.trait} traits={traits} />
            </details>
          )}
        </article>
      ))}
    </>
  );
}

/** Still worked out, or not to be told and why. */
function NotKnown({
  fish,
  merit,
  onDone,
}: {
  fish: FishFacts;
  merit: FishMerit;
  onDone: () => void;
}) {
  const { trait, waiting, refusal, value, expectedYoung } = merit;
  if (waiting !== null)
    return (
      <WaitingComputation
        key={waiting.id}
        computation={waiting}
        what={`what is passed on of ${trait.name}`}
        {...untilThen(merit)}
        onDone={onDone}
      />
    );
  if (refusal !== null)
    return (
      <p className="lw-quiet">
        {trait.name}: {refusal.message} {refusal.remedy}
      </p>
    );
  if (value !== null && expectedYoung === null)
    return (
      <p className="lw-quiet">
        {trait.name}: {fish.tag} belongs to no line, so there is no mean to hold it against. Put it
        in a line by correcting it.
      </p>
    );
  return null;
}
