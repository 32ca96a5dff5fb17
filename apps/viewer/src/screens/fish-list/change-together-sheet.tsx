import { Button } from '@mantine/core';
import { useRef, useState } from 'react';
import type { FishAct, FishActInput } from '../../api/fish-acts.js';
import { Focused } from '../../components/focused.js';
import { ProblemNotice } from '../../components/notice.js';
import { Sheet } from '../../components/sheet.js';
import { plural } from '../../wording/figures.js';
import { actForms } from './act-form.js';
import { actTitle, type ActKind } from './act-kind.js';
import { changingIn, namedFish, saveWords } from './act-words.js';
import { ActPreview } from './act-preview.js';
import { withoutFish, type Choice } from './choice.js';
import { useAct, type Looked } from './use-act.js';

interface ChangeTogetherSheetProps {
  kind: ActKind;
  choice: Choice;
  onLeaveOut: (ids: readonly string[]) => void;
  onClose: () => void;
  onDone: (act: FishAct) => void;
}

/** What is asked, then looked at, then saved; left alone after a look, it is there to go back to. */
function useTogether({ choice, onLeaveOut, onClose, onDone }: ChangeTogetherSheetProps) {
  const act = useAct();
  const [given, setGiven] = useState<FishActInput>({});
  const form = useRef<HTMLDivElement>(null);
  const save = async () => {
    const done = await act.keep();
    if (done !== null) onDone(done);
  };
  return {
    ...{ act, form, save },
    look: (what: FishActInput) => {
      setGiven(what);
      return act.look(choice, what);
    },
    leaveOut: (ids: readonly string[]) => {
      const rest = withoutFish(choice, ids);
      onLeaveOut(ids);
      if (rest.length === 0) onClose();
      else void act.look(rest, given);
    },
    // An answer may have been lost: the same act sent again is done once.
    retry: () => void (act.problem?.code === 'UNREACHABLE' ? save() : act.look(choice, given)),
    back: () => {
      act.back();
      // Once it is shown again.
      requestAnimationFrame(() => form.current?.focus());
    },
  };
}

/** Asks what is done for the chosen fish, shows what it would change, and saves it for all or none. */
export function ChangeTogetherSheet(props: ChangeTogetherSheetProps) {
  const { kind, choice, onClose } = props;
  const together = useTogether(props);
  const { looked, asking, askProblem } = together.act;
  const Form = actForms[kind];
  return (
    <Sheet
      title={`${actTitle[kind]}: ${plural(choice.length, 'fish', 'fish')}`}
      opened
      onClose={onClose}
      size={720}
    >
      {/* Hidden and not taken away, so that what was typed is there to go back to. */}
      <div hidden={looked !== null} ref={together.form} tabIndex={-1} className="lw-takes-focus">
        <p>{namedFish(choice)}</p>
        <Form asking={asking} problem={askProblem} onCancel={onClose} onLook={together.look} />
      </div>
      {looked !== null && (
        <LookedAt kind={kind} looked={looked} together={together} onClose={onClose} />
      )}
    </Sheet>
  );
}

interface LookedAtProps {
  kind: ActKind;
  looked: Looked;
  together: ReturnType<typeof useTogether>;
  onClose: () => void;
}

function LookedAt({ kind, looked, together, onClose }: LookedAtProps) {
  const { act, save, leaveOut, retry, back } = together;
  const count = changingIn(looked.preview);
  return (
    <Focused>
      <ActPreview preview={looked.preview} onLeaveOut={leaveOut} />
      <ProblemNotice problem={act.problem ?? act.askProblem} onRetry={retry} />
      <div className="lw-form-buttons">
        <Button
          className={kind === 'withdrawal' ? 'lw-danger' : 'lw-primary'}
          variant="filled"
          loading={act.saving}
          disabled={count === 0 || act.asking}
          onClick={() => void save()}
        >
          {saveWords(kind, count)}
        </Button>
        <Button onClick={back}>Back</Button>
        <Button onClick={onClose}>Cancel</Button>
      </div>
    </Focused>
  );
}
