import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { type PartnerLine, TAKE_BACK_WHAT_CAME, WHAT_CAME } from '../../api/partners.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { Shown } from '../../components/states.js';
import { changeWords } from '../../panels/change-words.js';
import { useRecordNames } from '../../panels/use-record-names.js';
import { plural, showTime } from '../../wording/figures.js';
import { recordWord } from '../../wording/words.js';

interface WhatCameProps {
  installId: string;
  line: PartnerLine;
  onChanged: () => void;
  onClose: () => void;
}

/** What was taken in of a line without a look, and one press to take it back. */
export function WhatCame({ installId, line, onChanged, onClose }: WhatCameProps) {
  const { lineId } = line;
  const read = useRead(WHAT_CAME, { installId, lineId });
  const names = useRecordNames();
  const { save, saving, problem, saved } = useTakingBack();
  if (saved !== null)
    return (
      <>
        <Done>
          {plural(saved.taken, 'change')} taken back.
          {saved.left > 0 &&
            ` ${plural(saved.left, 'change')} ${saved.left === 1 ? 'stays' : 'stay'}: changed or used since.`}
        </Done>
        <Button onClick={onClose}>Close</Button>
      </>
    );
  return (
    <Shown read={read} what="what came">
      {({ whatCame }) => (
        <>
          <p>
            Taken in on {line.cameAt === null ? '' : showTime(line.cameAt)}, since you breed this
            line together. Taken back, new records are withdrawn and changed ones are as before,
            also at your partner’s with the next exchange; what was changed or used since stays.
          </p>
          <ol>
            {whatCame.map((change) => (
              <li key={change.id}>
                {change.recordKind === 'FISH' ? (
                  <Link to={`/fish/${change.recordId}`}>fish</Link>
                ) : (
                  recordWord[change.recordKind]
                )}
                {change.revision === 1 ? ', new' : ''}:{' '}
                {change.changes.map((field) => changeWords(field, names)).join('; ')}
              </li>
            ))}
          </ol>
          <ProblemNotice problem={problem} />
          <div className="lw-form-buttons">
            <Button
              className="lw-danger"
              variant="filled"
              disabled={whatCame.length === 0}
              loading={saving}
              onClick={() => void save({ installId, lineId }).then(onChanged)}
            >
              Take all of it back
            </Button>
            <Button onClick={onClose}>Keep it</Button>
          </div>
        </>
      )}
    </Shown>
  );
}

function useTakingBack() {
  const taking = useSave(TAKE_BACK_WHAT_CAME);
  const [saved, setSaved] = useState<{ taken: number; left: number } | null>(null);
  return {
    ...{ saved, saving: taking.saving, problem: taking.problem },
    save: async (which: { installId: string; lineId: string }) => {
      const answer = await taking.save(which);
      if (answer !== null) setSaved(answer.takeBackWhatCame);
    },
  };
}
