import { Link } from 'react-router';
import type { LineOutcross } from '../../api/outcross.js';
import { Facts } from '../../components/facts.js';
import { Section } from '../../components/section.js';
import { percent, plainNumber, plural } from '../../wording/figures.js';
import { fryText, sureChanceText } from '../../wording/route-words.js';

/** How likely the outcross and its backcrosses reach what the line is for. */
export function ChanceSection({ lineId, outcross }: { lineId: string; outcross: LineOutcross }) {
  const { chance, whyNoChance } = outcross;
  return (
    <Section title="Chance to succeed">
      {whyNoChance !== null && (
        <p>
          {whyNoChance} <Link to={`/lines/${lineId}/purpose`}>What the line is for</Link>
        </p>
      )}
      {chance === null && whyNoChance === null && (
        <p className="lw-quiet">It is not simulated yet.</p>
      )}
      {chance !== null && <ChanceFacts chance={chance} />}
    </Section>
  );
}

function ChanceFacts({ chance }: { chance: NonNullable<LineOutcross['chance']> }) {
  const { share, generations, meanMonths } = chance;
  return (
    <>
      <p className="lw-words">
        Succeeded means: within {plural(generations, 'generation')}, the cross with them, a brood
        comes of which {percent(share, 0)} pass what the line is for, with F under the ceiling. The
        best young of each brood are put back to the line, as long as that fish can be a parent.
      </p>
      <Facts
        facts={[
          {
            name: 'Chance',
            value: `${sureChanceText(chance)}; ${plural(chance.simulations, 'simulation')}`,
          },
          {
            name: 'By generation',
            value: chance.byGeneration.map((one) => percent(one, 0)).join(', '),
          },
          {
            name: 'Time',
            value:
              meanMonths === null
                ? 'it was never reached'
                : `about ${Math.round(meanMonths)} months where it is reached`,
          },
          {
            name: 'Young to raise',
            value: fryText(chance.fry),
          },
          {
            name: 'F of the last brood',
            value: `${plainNumber(100 * chance.inbreeding.mean, 1)} % on average`,
          },
        ]}
      />
    </>
  );
}
