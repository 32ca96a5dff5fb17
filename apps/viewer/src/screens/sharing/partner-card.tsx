import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import {
  CONFIRM_WORDS,
  END_INSTALL,
  EXCHANGE_NOW,
  type Partner,
  type PartnerLine,
  SET_EXCHANGE_FOLDER,
  TAKE_OFFERED_LINE,
} from '../../api/partners.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { Caution, ProblemNotice } from '../../components/notice.js';
import { Sheet } from '../../components/sheet.js';
import { useUnsaved } from '../../components/unsaved.js';
import { ReasonForm } from '../../components/withdraw-form.js';
import { plural, showTime } from '../../wording/figures.js';
import styles from './partners.module.css';
import { WhatCame } from './what-came.js';

interface PartnerCardProps {
  partner: Partner;
  onChanged: () => void;
}

/** One partner's install: its words, its folder, and each line that goes between the two. */
export function PartnerCard({ partner, onChanged }: PartnerCardProps) {
  const { person, words, endedAt } = partner;
  return (
    <article className={styles['card']}>
      <h3>{person.name}</h3>
      <p>
        Their words: <strong className={styles['words']}>{words}</strong>
      </p>
      {endedAt === null ? (
        <Standing partner={partner} onChanged={onChanged} />
      ) : (
        <Ended partner={partner} endedAt={endedAt} />
      )}
    </article>
  );
}

function Ended({ partner, endedAt }: { partner: Partner; endedAt: string }) {
  const { person, endedReason, folder, problem } = partner;
  return (
    <>
      <p>
        You took their key back on {showTime(endedAt)}
        {endedReason === null ? '' : `: ${endedReason}`}. Nothing signed with it is taken in. Pair
        again with a code to trust it again.
      </p>
      <p>
        {folder === null
          ? `What lay in the folder for ${person.name} was taken out, where there was one.`
          : `${person.name} is told in the folder as soon as it can be reached.`}
      </p>
      {problem !== null && <Caution>{problem}</Caution>}
    </>
  );
}

function Standing({ partner, onChanged }: PartnerCardProps) {
  const confirming = useSave(CONFIRM_WORDS);
  const [ending, setEnding] = useState(false);
  const installId = partner.id;
  return (
    <>
      {partner.comparedAt === null ? (
        <>
          <p>Ask them to read you “Your words” on their screen. Are they the same as here?</p>
          <ProblemNotice problem={confirming.problem} />
          <Button
            className="lw-primary"
            loading={confirming.saving}
            onClick={() => void confirming.save({ installId }).then(onChanged)}
          >
            The words are the same
          </Button>
        </>
      ) : (
        <Exchange partner={partner} onChanged={onChanged} />
      )}
      <div className="lw-form-buttons">
        <Button variant="default" onClick={() => setEnding(true)}>
          Take the key of {partner.person.name} back
        </Button>
      </div>
      <TakeKeyBack
        partner={partner}
        opened={ending}
        onClose={() => setEnding(false)}
        onChanged={onChanged}
      />
    </>
  );
}

function TakeKeyBack({
  partner,
  opened,
  onClose,
  onChanged,
}: PartnerCardProps & { opened: boolean; onClose: () => void }) {
  const { save, saving, problem } = useSave(END_INSTALL);
  const { name } = partner.person;
  return (
    <Sheet title={`Take the key of ${name} back`} opened={opened} onClose={onClose}>
      <ReasonForm
        danger
        submit="Take it back"
        saving={saving}
        problem={problem}
        onCancel={onClose}
        onSubmit={async (reason) => {
          if ((await save({ installId: partner.id, reason })) === null) return;
          onClose();
          onChanged();
        }}
      >
        <p>
          Do this when their machine was lost or stolen, or when you no longer work together. From
          then on nothing signed with their key is taken in, and nothing is written for them. What
          lies in the folder for {name} is taken out, and they are told there, with your reason.
          What they took in before stays with them.
        </p>
      </ReasonForm>
    </Sheet>
  );
}

function Exchange({ partner, onChanged }: PartnerCardProps) {
  const exchanging = useSave(EXCHANGE_NOW);
  const [busy, setBusy] = useState(false);
  const installId = partner.id;
  return (
    <>
      <FolderForm partner={partner} onChanged={onChanged} />
      {partner.folder !== null && (
        <>
          <p>
            {partner.lookedAt === null
              ? 'The folder was not looked into yet.'
              : `Last looked into: ${showTime(partner.lookedAt)}.`}{' '}
            It is looked into every {plural(partner.everyMinutes, 'minute')} while Linewright runs.
          </p>
          {(partner.underWay || busy) && (
            <p role="status">
              It is being looked into just now, by itself or from another page: look again in a
              moment.
            </p>
          )}
          {partner.refusedAt !== null && (
            <Caution>
              {partner.person.name} took the key of this install back on{' '}
              {showTime(partner.refusedAt)}
              {partner.refusedReason === null ? '' : `: ${partner.refusedReason}`}. They take
              nothing more from here, and nothing is written for them. To go on, pair again on both
              sides.
            </Caution>
          )}
          {partner.problem !== null && <Caution>{partner.problem}</Caution>}
          {partner.strangers > 0 && (
            <Caution>
              {plural(partner.strangers, 'other install')} write into this folder too. They cannot
              read what is for you or {partner.person.name}, but they can delete it.
            </Caution>
          )}
          <ProblemNotice problem={exchanging.problem} />
          <Button
            loading={exchanging.saving}
            onClick={() =>
              void exchanging.save({ installId }).then((looked) => {
                setBusy(looked?.exchangeNow.underWay === true);
                onChanged();
              })
            }
          >
            Look now
          </Button>
          <Lines partner={partner} onChanged={onChanged} />
          <p className="lw-words">
            What goes to {partner.person.name} is chosen line by line under “Partners who see it
            here” on the <Link to="/lines">page of a line</Link>.
          </p>
        </>
      )}
    </>
  );
}

function FolderForm({ partner, onChanged }: PartnerCardProps) {
  const [folder, setFolder] = useState(partner.folder ?? '');
  const { save, saving, problem } = useSave(SET_EXCHANGE_FOLDER);
  useUnsaved(folder !== (partner.folder ?? ''));
  const set = async () => {
    if ((await save({ installId: partner.id, folder: folder.trim() })) !== null) onChanged();
  };
  return (
    <div className="lw-form">
      <TextInput
        label={`Folder for ${partner.person.name}`}
        description="Its whole path on the machine that Linewright runs on, not on the phone or computer before you. Any folder that both machines reach will do, such as one that is kept the same on both."
        placeholder="/home/me/Shared/line"
        value={folder}
        onChange={(event) => setFolder(event.currentTarget.value)}
      />
      <ProblemNotice problem={problem} />
      <div className="lw-form-buttons">
        <Button loading={saving} onClick={() => void set()}>
          Use this folder
        </Button>
      </div>
    </div>
  );
}

function Lines({ partner, onChanged }: PartnerCardProps) {
  const taking = useSave(TAKE_OFFERED_LINE);
  const [looking, setLooking] = useState<PartnerLine | null>(null);
  if (partner.lines.length === 0)
    return <p className="lw-quiet">No line goes between the two yet.</p>;
  return (
    <>
      <ProblemNotice problem={taking.problem} />
      <DataTable
        caption={`Lines between you and ${partner.person.name}`}
        rows={partner.lines}
        rowKey={({ lineId }) => lineId}
        columns={[
          { key: 'line', title: 'Line', cell: (one) => one.line?.code ?? one.lineCode ?? '–' },
          { key: 'sent', title: 'Last given', cell: ({ sentAt }) => moment(sentAt) },
          { key: 'read', title: 'Last taken in', cell: ({ readAt }) => moment(readAt) },
          {
            key: 'state',
            title: 'How it stands',
            cell: (one) =>
              one.line === null && one.problem === null ? (
                <Button
                  size="xs"
                  loading={taking.saving}
                  onClick={() =>
                    void taking.save({ installId: partner.id, lineId: one.lineId }).then(onChanged)
                  }
                >
                  Take {one.lineCode} in and keep it in step
                </Button>
              ) : (
                <>
                  {stateWords(one)}{' '}
                  {one.cameAt !== null && (
                    <Button
                      size="xs"
                      aria-label={`See what came of ${one.line?.code ?? 'the line'}`}
                      onClick={() => setLooking(one)}
                    >
                      See what came
                    </Button>
                  )}
                </>
              ),
          },
        ]}
      />
      <Came
        partner={partner}
        line={looking}
        onChanged={onChanged}
        onClose={() => setLooking(null)}
      />
    </>
  );
}

interface CameProps extends PartnerCardProps {
  line: PartnerLine | null;
  onClose: () => void;
}

function Came({ partner, line, onChanged, onClose }: CameProps) {
  return (
    <Sheet
      title={`What came of ${line?.line?.code ?? ''} from ${partner.person.name}`}
      opened={line !== null}
      onClose={onClose}
    >
      {line !== null && (
        <WhatCame installId={partner.id} line={line} onChanged={onChanged} onClose={onClose} />
      )}
    </Sheet>
  );
}

const moment = (at: string | null): string => (at === null ? '–' : showTime(at));

function stateWords({ problem, taken, leftOut, photosWaiting, readAt }: PartnerLine): string {
  if (problem !== null) return problem;
  if (readAt === null) return 'nothing came from them yet';
  const words = [`${plural(taken, 'record')} taken in last time`];
  if (photosWaiting > 0) words.push(`${plural(photosWaiting, 'picture')} still on the way`);
  if (leftOut > 0)
    words.push(`${plural(leftOut, 'change')} not taken in: more than you shared with them`);
  return words.join('; ');
}
