import { Button } from '@mantine/core';
import { useRef, useState } from 'react';
import type { FishAct, FishActInput } from '../../api/fish-acts.js';
import { Focused } from '../../components/focused.js';
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
  const form = useRef<HTMLDivElement>(null);
  const save = async () => {
    const done = await act.keep();
    if (done !== null) onDone(done);
  };
  return (
    <Sheet
      title={`${actTitle[kind]}: ${plural(choice.length, 'fish', 'fish')}`}
      opened
      onClose={onClose}
      size={720}
    >
      {/* Hidden and not taken away, so that what was typed is there to go back to. */}
      <div hidden={looked !== null} ref={form} tabIndex={-1} style={{ outline: 'none' }}>
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
        <Focused>
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
            // An answer may have been lost: the same act sent again is done once.
            onRetry={() =>
              void (act.problem?.code === 'UNREACHABLE' ? save() : act.look(choice, given))
            }
          />
          <div className="lw-form-buttons">
            <Button
              className={kind === 'withdrawal' ? 'lw-danger' : 'lw-primary'}
              variant="filled"
              loading={act.saving}
              disabled={countOf(looked) === 0 || act.asking}
              onClick={() => void save()}
            >
              {saveWords(kind, countOf(looked))}
            </Button>
            <Button
              onClick={() => {
                act.back();
                // Once it is shown again.
                requestAnimationFrame(() => form.current?.focus());
              }}
            >
              Back
            </Button>
            <Button onClick={onClose}>Cancel</Button>
          </div>
        </Focused>
      )}
    </Sheet>
  );
}

/** Fish that would change; none while one stands in the way. */
const countOf = ({ preview: { fish, inTheWay } }: Looked): number =>
  inTheWay.length > 0 ? 0 : fish.filter(({ changes }) => changes.length > 0).length;

function saveWords(kind: ActKind, count: number): string {
  const verb = kind === 'withdrawal' ? 'Withdraw' : 'Save';
  if (count === 0) return verb;
  return `${verb}${kind === 'withdrawal' ? '' : ' for'} ${plural(count, 'fish', 'fish')}`;
}

const NAMED = 12;

function named(choice: Choice): string {
  const tags = choice.slice(0, NAMED).map(({ tag }) => tag);
  const more = choice.length - tags.length;
  return `${tags.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`;
}
