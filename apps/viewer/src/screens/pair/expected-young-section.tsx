import { normalCurve } from '@linewright/mating';
import { Link } from 'react-router';
import type { PairWorth } from '../../api/judgement.js';
import type { PlannedBrood } from '../../api/pairings.js';
import { meanScore, WorthBasis, WorthParts } from '../../components/pair-worth.js';
import { Section } from '../../components/section.js';
import { Empty } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { YoungCurve } from '../../drawings/index.js';
import { fryWords, passingWords } from '../../wording/passing-words.js';
import { worthText } from '../../wording/worth-words.js';

/** What the young are expected to be for what the line is for, how likely enough of them pass, and what that is worth. */
export function ExpectedYoungSection({ brood }: { brood: PlannedBrood }) {
  const { basis, worth, passing } = brood;
  if (basis.lineId === null || basis.version === 0)
    return (
      <Section title="What the young are worth">
        <Empty
          action={basis.lineId !== null && <Link to={`/lines/${basis.lineId}`}>Open the line</Link>}
        >
          {basis.lineId === null
            ? 'These two are not of one line, so there is no one purpose to hold their young against.'
            : 'Nobody has said yet what this line is for. Say it, and this page tells what the young are worth for it.'}
        </Empty>
      </Section>
    );
  return (
    <Section title="What the young are worth">
      <Why
        about={`the worth of this pair is ${worthText(worth)}`}
        figure={<>Worth {worthText(worth)} points</>}
      >
        <WorthBasis basis={basis} />
        <WorthParts worth={worth} />
      </Why>
      <p className="lw-words">{passingWords(passing)}</p>
      <p className="lw-words">{fryWords(passing)}</p>
      {worth.traits.map((one) => (
        <TraitCurve key={one.trait.id} one={one} />
      ))}
    </Section>
  );
}

function TraitCurve({ one }: { one: PairWorth['traits'][number] }) {
  const { trait, mean, meanError, deviation, lineMean, lineDeviation, low, high } = one;
  // A young scatters round its brood, and the brood round what is expected of it.
  const variance = meanError ** 2 + deviation ** 2;
  return (
    <YoungCurve
      title={`${trait.name}: young of this pair`}
      young={{ curve: normalCurve(mean, variance), mean, deviation: Math.sqrt(variance) }}
      line={{
        curve: normalCurve(lineMean, lineDeviation ** 2),
        mean: lineMean,
        deviation: lineDeviation,
      }}
      low={low}
      high={high}
      scale={trait.unit === null || trait.unit === '' ? trait.name : `${trait.name}, ${trait.unit}`}
      words={(score) => meanScore(score, trait)}
    />
  );
}
