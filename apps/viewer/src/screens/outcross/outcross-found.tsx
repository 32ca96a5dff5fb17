import type { LineOutcross } from '../../api/outcross.js';
import { FishLink } from '../../components/fish-marks.js';
import { Facts } from '../../components/facts.js';
import { Section } from '../../components/section.js';
import { Empty } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { LeftOut } from '../line-routes/left-out.js';
import { BranchSection } from './branch-section.js';
import { ChanceSection } from './chance-section.js';
import { GenerationsSection } from './generations-section.js';
import { VerdictSection } from './verdict-section.js';

interface OutcrossFoundProps {
  lineId: string;
  outcross: LineOutcross;
  onDone: () => void;
}

/** All that is told of the chosen partner: exact figures at once, simulated ones as they come. */
export function OutcrossFound({ lineId, outcross, onDone }: OutcrossFoundProps) {
  const { waiting, whyNone, backcrosses, leftOut } = outcross;
  return (
    <>
      {waiting !== null && (
        <WaitingComputation
          key={waiting.id}
          computation={waiting}
          what={backcrosses === null ? 'what is known of the fish' : 'the line with and without it'}
          {...(backcrosses !== null && {
            doing: 'Simulating',
            whileGoing: 'What follows exactly from the fish stands below.',
            stoppedText: 'The simulations were stopped. What follows exactly stands below.',
          })}
          onDone={onDone}
        />
      )}
      {whyNone !== null && <Empty>{whyNone}</Empty>}
      {backcrosses !== null && (
        <>
          <FishOfOutcross outcross={outcross} />
          <VerdictSection lineId={lineId} outcross={outcross} />
          <GenerationsSection outcross={outcross} />
          <ChanceSection lineId={lineId} outcross={outcross} />
          <BranchSection lineId={lineId} outcross={outcross} />
        </>
      )}
      <LeftOut sentences={leftOut} />
    </>
  );
}

function FishOfOutcross({ outcross }: { outcross: LineOutcross }) {
  const { partner, mate, back, cautions, parentGenerations } = outcross;
  return (
    <Section title="The fish">
      <Facts
        facts={[
          {
            name: 'Partner',
            value:
              partner === null ? (
                'not on record, by its looks'
              ) : (
                <>
                  <FishLink fish={partner} /> {partner.lineCode ?? 'no line'}
                </>
              ),
          },
          { name: 'Its mate', value: mate !== null && <FishLink fish={mate} /> },
          { name: 'Young go back to', value: back !== null && <FishLink fish={back} /> },
        ]}
      />
      {cautions.length > 0 && (
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
      <p className="lw-quiet lw-words">
        By the ages of the line one fish can be a parent in{' '}
        {parentGenerations === 1 ? 'one generation' : `${parentGenerations} generations`}: for later
        backcrosses choose another fish of the line that is as good.
      </p>
    </Section>
  );
}
