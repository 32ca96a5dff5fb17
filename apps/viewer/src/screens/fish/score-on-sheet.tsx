import { daysBetween } from '@linewright/care';
import { NativeSelect } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Link } from 'react-router';
import { SCORE_SHEETS, type ScoreSheetRow, type SheetScoring } from '../../api/score-sheets.js';
import { useRead } from '../../api/use-read.js';
import { Done } from '../../components/notice.js';
import { Empty, Shown } from '../../components/states.js';
import { today } from '../../wording/figures.js';
import { windowText } from '../../wording/sheet-words.js';
import { sheetOfAge } from '../score-sheets/filled-sheet.js';
import { ScoreOnSheetForm } from './score-on-sheet-form.js';
import { ScoringShown } from './scoring-shown.js';
import type { ScoredFish } from './scored-fish.js';

/** The sheet that was meant for the fish's age today, if any; else the first. */
function likelySheet(sheets: readonly ScoreSheetRow[], fish: ScoredFish): string {
  const age = fish.hatchDate === null ? null : daysBetween(fish.hatchDate, today());
  return (sheetOfAge(sheets, age) ?? sheets[0])?.id ?? '';
}

/** Choosing a sheet, filling it in, and what came of it. */
export function ScoreOnSheet({ fish, onClose }: { fish: ScoredFish; onClose: () => void }) {
  const read = useRead(SCORE_SHEETS, {});
  const [chosen, setChosen] = useState<string | null>(null);
  const [saved, setSaved] = useState<SheetScoring | null>(null);
  if (saved !== null) {
    return (
      <>
        <Done>Saved.</Done>
        <ScoringShown scoring={saved} />
      </>
    );
  }
  return (
    <Shown read={read} what="the score sheets">
      {({ scoreSheets }) => {
        const sheet = scoreSheets.find(
          ({ id }) => id === (chosen ?? likelySheet(scoreSheets, fish)),
        );
        if (sheet === undefined) {
          return (
            <Empty action={<Link to="/score-sheets">Make a score sheet</Link>}>
              No score sheet yet. Make one of your traits, or start from an offered one.
            </Empty>
          );
        }
        return (
          <SheetChoice
            sheet={sheet}
            setChosen={setChosen}
            scoreSheets={scoreSheets}
            fish={fish}
            setSaved={setSaved}
            onClose={onClose}
          />
        );
      }}
    </Shown>
  );
}

interface SheetChoiceProps {
  sheet: ScoreSheetRow;
  setChosen: Dispatch<SetStateAction<string | null>>;
  scoreSheets: ScoreSheetRow[];
  fish: ScoredFish;
  setSaved: Dispatch<SetStateAction<SheetScoring | null>>;
  onClose: () => void;
}

function SheetChoice({ sheet, setChosen, scoreSheets, fish, setSaved, onClose }: SheetChoiceProps) {
  return (
    <div className="lw-form">
      <NativeSelect
        label="Sheet"
        value={sheet.id}
        onChange={(event) => setChosen(event.currentTarget.value)}
        data={scoreSheets.map(({ id, name, current }) => ({
          value: id,
          label: `${name} (${windowText(current.fromAgeDays, current.toAgeDays)})`,
        }))}
      />
      <ScoreOnSheetForm
        key={`${sheet.id} ${sheet.version}`}
        fish={fish}
        sheet={sheet}
        onSaved={setSaved}
        onCancel={onClose}
      />
    </div>
  );
}
