import { useState } from 'react';
import { FISH_FAMILY } from '../api/fish.js';
import { MERIT_REASONS, RANKED_FISH, type FishMerit } from '../api/merit.js';
import { useRead } from '../api/use-read.js';
import { FishLink } from '../components/fish-marks.js';
import { Shown } from '../components/states.js';
import { Why } from '../components/why.js';
import { RelativeShares, ValueAmongKin } from '../drawings/index.js';
import { percent } from '../wording/figures.js';
import { GRADED_VALUES, STEP_MEANING } from '../wording/merit-model-words.js';
import { meritScale } from '../wording/merit-scale.js';
import { againstText, passesOnText, signedText, trustText } from '../wording/merit-words.js';
import { scoreText } from '../wording/scores.js';
import { youngOf } from './young-of.js';

interface PassedOnProps {
  fish: {
    readonly id: string;
    readonly tag: string;
    readonly line: { readonly id: string } | null;
  };
  merit: FishMerit;
}

/** What a fish passes on in one trait, in a sentence; nothing while there is no value. */
export function passedOnSentence({
  trait,
  value,
  expectedYoung,
  ownLooks,
  scoredRelatives,
}: FishMerit) {
  if (value === null || expectedYoung === null) return null;
  const { unit, factor } = meritScale(trait, value.kind);
  return passesOnText({
    expected: factor * expectedYoung.aboveLine,
    giveOrTake: factor * expectedYoung.giveOrTake,
    unit,
    ownScores: ownLooks,
    relatives: scoredRelatives,
  });
}

/** What a fish passes on in one trait: a sentence, the warning of too much trust, whose scores make it, and a picture when asked for. */
export function PassedOn({ fish, merit }: PassedOnProps) {
  const { trait, value, expectedYoung, inLine, ownMean } = merit;
  const sentence = passedOnSentence(merit);
  if (value === null || expectedYoung === null || sentence === null) return null;
  const { unit, factor } = meritScale(trait, value.kind);
  const trust = trustText({
    inLine,
    ownScore: ownMean === null ? null : scoreText(ownMean, { ...trait, grades: [] }),
    expected: againstText(
      factor * expectedYoung.aboveLine,
      unit,
      factor * expectedYoung.giveOrTake,
      'the line’s mean',
    ),
  });
  return (
    <>
      <Why about={`what ${fish.tag} passes on in ${trait.name}`} figure={sentence}>
        <WhoseScores fish={fish} merit={merit} />
        <p>
          Its young get half of what it passes on and half of what their other parent does; here the
          other parent stands at the mean of the line’s fish in use. “Give or take” is right in four
          of five cases, if fish were scored at random.
          {value.kind === 'THRESHOLD' && ` ${STEP_MEANING} ${GRADED_VALUES}`}
        </p>
      </Why>
      {trust !== null && <p className="lw-words">{trust}</p>}
    </>
  );
}

function WhoseScores({ fish, merit: { trait } }: PassedOnProps) {
  const read = useRead(MERIT_REASONS, { fishId: fish.id, traitId: trait.id });
  const { unit, factor } = meritScale(trait);
  return (
    <Shown read={read} what="whose scores count">
      {({ meritReasons: answer }) =>
        answer === null ? (
          <p>Whose scores count for how much is not worked out for so many fish.</p>
        ) : (
          <RelativeShares
            title={`Whose scores make this figure of ${fish.tag}`}
            relatives={answer.reasons.slice(0, LISTED).map((reason) => ({
              id: reason.fish.id,
              fish: <FishLink fish={reason.fish} />,
              relation:
                reason.fish.id === fish.id
                  ? 'itself'
                  : `${percent(reason.relationship, 0)} alike by descent`,
              scores: reason.looks,
              moves: (factor * reason.contribution) / 2,
            }))}
            others={othersOf(answer, factor)}
            words={(moves) => signedText(moves, unit)}
          />
        )
      }
    </Shown>
  );
}

const LISTED = 10;

function othersOf(
  answer: {
    readonly fishCount: number;
    readonly restContribution: number;
    readonly reasons: readonly { readonly contribution: number }[];
  },
  factor: number,
) {
  const count = answer.fishCount - Math.min(LISTED, answer.reasons.length);
  if (count === 0) return null;
  const rest = answer.reasons.slice(LISTED).reduce((sum, one) => sum + one.contribution, 0);
  return { count, moves: (factor * (rest + answer.restContribution)) / 2 };
}

/** A fish's dot with its bands, above its sibs and its line in use; fetched when opened. */
export function PassedOnPicture({ fish, merit, open = false }: PassedOnProps & { open?: boolean }) {
  const [shown, setShown] = useState(open);
  return (
    <details
      className="lw-folded"
      open={open}
      onToggle={(event) => setShown(event.currentTarget.open)}
    >
      <summary>Picture: {merit.trait.name} among its sibs and the line</summary>
      {shown && fish.line !== null && <Picture fish={fish} merit={merit} lineId={fish.line.id} />}
    </details>
  );
}

function Picture({ fish, merit, lineId }: PassedOnProps & { lineId: string }) {
  const { trait, value, lineMean } = merit;
  const line = useRead(RANKED_FISH, { traitId: trait.id, lineId });
  const family = useRead(FISH_FAMILY, { id: fish.id });
  if (value === null || lineMean === null) return null;
  const { unit, factor } = meritScale(trait, value.kind);
  const young = youngOf(lineMean, factor);
  const uncertain = factor * (merit.expectedYoung?.giveOrTake ?? 1);
  const words = (given: number): string => signedText(given, unit, uncertain);
  return (
    <Shown read={line} what="the line’s values">
      {({ rankedFish }) => {
        const others = rankedFish.edges.map(({ node }) => ({
          ...node.fish,
          value: young(node.value),
        }));
        const brood = new Set(family.data?.fish.spawn?.fish.map(({ id }) => id));
        const notDrawn = rankedFish.totalCount - others.length;
        return (
          <>
            <ValueAmongKin
              title={`Young of ${fish.tag}: ${trait.name}`}
              fish={{
                id: fish.id,
                tag: fish.tag,
                value: young(value.value),
                bands: value.bands.map(({ probability, low, high }) => ({
                  percent: Math.round(100 * probability),
                  low: young(low),
                  high: young(high),
                })),
              }}
              sibs={others.filter(({ id }) => brood.has(id))}
              line={others}
              words={words}
              scale={`its young against the line’s mean${unit === null ? '' : `, ${unit}`}`}
            />
            {notDrawn > 0 && (
              <p className="lw-words">
                The line has {rankedFish.totalCount.toLocaleString('en')} fish in use. Drawn are
                this one and the {others.length} of highest value, and sibs only as far as they are
                among these.
              </p>
            )}
          </>
        );
      }}
    </Shown>
  );
}
