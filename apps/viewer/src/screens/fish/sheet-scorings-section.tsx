import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Link } from 'react-router';
import type { FishFacts } from '../../api/fish.js';
import { FISH_SCORINGS, WITHDRAW_SCORING, type SheetScoring } from '../../api/score-sheets.js';
import { useRead, type Read } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { EmptyPart } from '../../components/empty-part.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { ScoreOnSheet } from './score-on-sheet.js';
import { ScoringShown } from './scoring-shown.js';

/** Looks at a fish on score sheets, newest first. */
export function SheetScoringsSection({ fish }: { fish: FishFacts }) {
  const read = useRead(FISH_SCORINGS, { id: fish.id });
  const [scoring, setScoring] = useState(false);
  const [withdrawn, setWithdrawn] = useState<SheetScoring | null>(null);
  return (
    <Section
      title="On score sheets"
      act={fish.mayScore}
      actions={
        <Button size="xs" onClick={() => setScoring(true)}>
          Score on a sheet
        </Button>
      }
    >
      <Scorings read={read} setWithdrawn={setWithdrawn} />
      <Sheet
        title={`Score ${fish.tag} on a sheet`}
        opened={scoring}
        onClose={() => setScoring(false)}
        size={680}
      >
        <ScoreOnSheet fish={fish} onClose={() => setScoring(false)} />
      </Sheet>
      {withdrawn !== null && (
        <WithdrawRecord
          mutation={WITHDRAW_SCORING}
          record={withdrawn}
          title={`Withdraw ${withdrawn.sheet.name}`}
          what={`the scores of ${withdrawn.scoredOn} with all their values`}
          onClose={() => setWithdrawn(null)}
        />
      )}
    </Section>
  );
}

function Scorings({
  read,
  setWithdrawn,
}: {
  read: Read<{ fish: { id: string; sheetScorings: SheetScoring[] } }>;
  setWithdrawn: Dispatch<SetStateAction<SheetScoring | null>>;
}) {
  return (
    <Shown read={read} what="the score sheets">
      {({ fish: { sheetScorings } }) =>
        sheetScorings.length === 0 ? (
          <EmptyPart part="SCORES">
            Not scored on a sheet yet. A <Link to="/score-sheets">score sheet</Link> takes all
            traits and faults of one day at once.
          </EmptyPart>
        ) : (
          <>
            {sheetScorings.map((one) => (
              <ScoringShown
                key={one.id}
                scoring={one}
                {...(one.mayChange && { onWithdraw: () => setWithdrawn(one) })}
              />
            ))}
          </>
        )
      }
    </Shown>
  );
}
