import { Button } from '@mantine/core';
import { Link } from 'react-router';
import { TAKE_BACK_FISH_ACT, type FishAct } from '../../api/fish-acts.js';
import { useSave } from '../../api/use-save.js';
import { Focused } from '../../components/focused.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { plural } from '../../wording/figures.js';

interface ActDoneProps {
  act: FishAct;
  onTakenBack: (act: FishAct) => void;
  onClose: () => void;
}

/** What was just done for several fish, and the way to take it back at once. */
export function ActDone({ act, onTakenBack, onClose }: ActDoneProps) {
  const { save, saving, problem } = useSave(TAKE_BACK_FISH_ACT);
  const takeBack = async () => {
    const done = await save({ id: act.id });
    if (done !== null) onTakenBack(done.takeBackFishAct);
  };
  const fish = plural(act.fishCount, 'fish', 'fish');
  return (
    <Focused key={act.takenBackAt ?? act.id}>
      <Done>
        <p>
          {act.takenBackAt === null
            ? `${fish} ${act.what}.`
            : `Taken back: ${fish} ${act.fishCount === 1 ? 'is' : 'are'} as before.`}{' '}
          <Link to={`/fish-acts/${act.id}`}>See what was done</Link>
        </p>
        <div className="lw-form-buttons">
          {act.takenBackAt === null && (
            <Button loading={saving} onClick={() => void takeBack()}>
              Take it back
            </Button>
          )}
          <Button onClick={onClose}>Close</Button>
        </div>
      </Done>
      <ProblemNotice problem={problem} />
    </Focused>
  );
}
