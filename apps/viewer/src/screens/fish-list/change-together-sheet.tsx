import { Button } from '@mantine/core';
import { useState } from 'react';
import type { FishAct, FishActInput } from '../../api/fish-acts.js';
import { ProblemNotice } from '../../components/notice.js';
import { Sheet } from '../../components/sheet.js';
import { plural } from '../../wording/figures.js';
import { actForms } from './act-form.js';
import { actTitle, type ActKind } from './act-kind.js';
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

/** Asks what is done for the chosen fish, shows what it would change, and saves it for all or none. */
export function ChangeTogetherSheet(props: ChangeTogetherSheetProps) {
  const { kind, choice, onLeaveOut, onClose, onDone } = props;
  const act = useAct();
  const [given, setGiven] = useState<FishActInput>({});
  const Form = actForms[kind];
  const { looked } = act;
  return (
    <Sheet
      title={`${actTitle[kind]}: ${plural(choice.length, 'fish', 'fish')}`}
      opened
      onClose={onClose}
      size={720}
    >
      {/* Hidden and not taken away, so that what was typed is there to go back to. */}
      <div hidden={looked !== null}>
        <p>{named(choice)}</p>
        <Form
          asking={act.asking}
          problem={act.askProblem}
          onCancel={onClose}
          onLook={(what) => {
            setGiven(what);
            return act.look(choice, what);
          }}
        />
      </div>
      {looked !== null && (
        <>
          <ActPreview
            preview={looked.preview}
            onLeaveOut={(ids) => {
              const rest = withoutFish(choice, ids);
              onLeaveOut(ids);
              if (rest.length === 0) onClose();
              else void act.look(rest, given);
            }}
          />
          <ProblemNotice
            problem={act.problem ?? act.askProblem}
            onRetry={() => void act.look(choice, given)}
          />
          <div className="lw-form-buttons">
            <Button
              className={kind === 'withdrawal' ? 'lw-danger' : 'lw-primary'}
              variant="filled"
              data-autofocus
              loading={act.saving}
              disabled={countOf(looked) === 0 || act.asking}
              onClick={() =>
                void act.keep().then((done) => {
                  if (done !== null) onDone(done);
                })
              }
            >
              {kind === 'withdrawal' ? 'Withdraw' : 'Save for'}{' '}
              {plural(countOf(looked), 'fish', 'fish')}
            </Button>
            <Button onClick={act.back}>Back</Button>
            <Button onClick={onClose}>Cancel</Button>
          </div>
        </>
      )}
    </Sheet>
  );
}

/** Fish that would change; none while one stands in the way. */
const countOf = ({ preview: { fish, inTheWay } }: Looked): number =>
  inTheWay.length > 0 ? 0 : fish.filter(({ changes }) => changes.length > 0).length;

const NAMED = 12;

function named(choice: Choice): string {
  const tags = choice.slice(0, NAMED).map(({ tag }) => tag);
  const more = choice.length - tags.length;
  return `${tags.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`;
}
