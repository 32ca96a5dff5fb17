import { Link } from 'react-router';
import { Caution } from '../components/notice.js';
import { Why } from '../components/why.js';
import { RelativeShares, ValueAmongKin } from '../drawings/index.js';
import { meritScale } from '../wording/merit-scale.js';
import { passesOnText, signedText, trustText } from '../wording/merit-words.js';
import type { TraitKind } from '../wording/words.js';

interface Kin {
  readonly id: string;
  readonly tag: string;
  /** How far its young are expected from the line's mean. */
  readonly expected: number;
}

interface RelativeReason extends Pick<Kin, 'id' | 'tag'> {
  readonly relation: string;
  readonly scores: number;
  readonly moves: number;
}

export interface PassedOnFigures {
  readonly fish: Kin;
  readonly trait: { readonly name: string; readonly kind: TraitKind; readonly unit: string | null };
  /** Of what its young are expected at. */
  readonly bands: readonly { probability: number; low: number; high: number }[];
  readonly ownScores: number;
  readonly relatives: number;
  readonly sibs: readonly Kin[];
  readonly line: readonly Kin[];
  readonly reasons: readonly RelativeReason[];
  readonly others: { readonly count: number; readonly moves: number } | null;
  /** Its own mean score beside the mean score of its line, and the part that is inherited. */
  readonly score: {
    readonly own: number;
    readonly mean: number;
    readonly inherited: number;
  } | null;
  readonly warning: string | null;
}

/** Half the width of the band that is right in 95 of 100 cases. */
export function giveOrTake(bands: PassedOnFigures['bands']): number {
  const widest = bands.find(({ probability }) => probability === 0.95);
  return widest === undefined ? 0 : (widest.high - widest.low) / 2;
}

/** What a fish passes on in one trait: a sentence, a picture, the warning of too much trust, and whose scores make it. */
export function PassedOn({ figures }: { figures: PassedOnFigures }) {
  const { fish, trait, bands, ownScores, relatives, score } = figures;
  const { unit, factor } = meritScale(trait);
  const uncertain = factor * giveOrTake(bands);
  const signed = (value: number): string => signedText(factor * value, unit, uncertain);
  const drawn = ({ id, tag, expected }: Kin) => ({ id, tag, value: factor * expected });
  const trust =
    score === null
      ? null
      : trustText({
          score: factor * score.own,
          mean: factor * score.mean,
          expected: factor * fish.expected,
          inherited: score.inherited,
          unit,
        });
  return (
    <>
      <Why
        about={`what ${fish.tag} passes on in ${trait.name}`}
        figure={passesOnText({
          expected: factor * fish.expected,
          giveOrTake: uncertain,
          unit,
          ownScores,
          relatives,
        })}
      >
        <RelativeShares
          title={`Whose scores make this figure of ${fish.tag}`}
          relatives={figures.reasons.map(({ id, tag, ...reason }) => ({
            ...reason,
            id,
            fish: id === fish.id ? tag : <Link to={`/fish/${id}`}>{tag}</Link>,
          }))}
          others={figures.others}
          words={signed}
        />
        <p>
          Its young get half of what it passes on and half of what their other parent does; here the
          other parent stands at the line’s mean. “Give or take” is right in 95 of 100 cases, if
          fish were scored at random.
        </p>
      </Why>
      {trust !== null && <p className="lw-words">{trust}</p>}
      {figures.warning !== null && <Caution>{figures.warning}</Caution>}
      <ValueAmongKin
        title={`Young of ${fish.tag} in ${trait.name}`}
        fish={{
          ...drawn(fish),
          bands: bands.map(({ probability, low, high }) => ({
            percent: Math.round(100 * probability),
            low: factor * low,
            high: factor * high,
          })),
        }}
        sibs={figures.sibs.map(drawn)}
        line={figures.line.map(drawn)}
        words={(value) => signedText(value, unit, uncertain)}
        scale={`its young against the line’s mean${unit === null ? '' : `, ${unit}`}`}
      />
    </>
  );
}
