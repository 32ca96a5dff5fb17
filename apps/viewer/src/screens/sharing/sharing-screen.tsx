import { Button, FileButton } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { ShareReport } from '../../api/sharing.js';
import { LINES } from '../../api/lines.js';
import { DIFFERENCES } from '../../api/sharing.js';
import { useRead } from '../../api/use-read.js';
import { Caution, Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { plural } from '../../wording/figures.js';
import { useSession } from '../../session/session-context.js';
import { Differences } from './differences.js';
import { GiveLine } from './give-line.js';
import { PartnersSection } from './partners-section.js';
import { ShareItems } from './share-items.js';
import { type TakingIn, useTakingIn } from './use-taking-in.js';

/** A line goes out as one file, and a partner's file comes in after a look at what it would change. */
export function SharingScreen() {
  const differences = useRead(DIFFERENCES, {});
  const { role } = useSession();
  return (
    <Screen title="Share a line">
      <ProblemNotice problem={differences.problem} />
      <Differences read={differences} />
      <GiveSection />
      <TakeSection onTaken={differences.reload} />
      {role === 'OWNER' && <PartnersSection onTaken={differences.reload} />}
    </Screen>
  );
}

function GiveSection() {
  const read = useRead(LINES, {});
  const [chosen, setChosen] = useState('');
  return (
    <Section title="Give a line">
      <Shown read={read} what="the lines">
        {({ lines }) => {
          const line = lines.find((each) => each.id === chosen) ?? lines[0];
          if (line === undefined) {
            return (
              <Empty action={<Link to="/lines">Go to the lines</Link>}>
                There is no line to give yet.
              </Empty>
            );
          }
          return <GiveLine line={line} setChosen={setChosen} lines={lines} />;
        }}
      </Shown>
    </Section>
  );
}

function TakeSection({ onTaken }: { onTaken: () => void }) {
  const taking = useTakingIn(onTaken);
  const { report, restart } = taking;
  return (
    <Section
      title="Take in a partner’s line"
      actions={
        report !== null && (
          <Button size="xs" onClick={restart}>
            Another file
          </Button>
        )
      }
    >
      <ProblemNotice problem={taking.notRead} />
      {report === null ? (
        <FileButton
          accept=".zip,application/zip,.json,application/json"
          inputProps={{ 'aria-label': 'Choose a line’s file' }}
          onChange={(file) => {
            if (file !== null) void taking.look(file);
          }}
        >
          {(props) => (
            <Button {...props} className="lw-primary" loading={taking.looking}>
              Choose a line’s file
            </Button>
          )}
        </FileButton>
      ) : (
        <LookedAt report={report} taking={taking} />
      )}
    </Section>
  );
}

interface LookedAtProps {
  report: ShareReport;
  taking: TakingIn;
}

function LookedAt({ report, taking }: LookedAtProps) {
  return (
    <>
      <FileHead report={report} />
      {report.conflicts > 0 && (
        <p>
          What was changed here and at the partner’s is not overwritten: yours stays, and both stand
          above on this page until you choose, once the file is taken in. Records that depend on one
          that is not taken in are not taken in either.
        </p>
      )}
      <ProblemNotice problem={taking.notTaken} />
      <TakenOrTake report={report} taking={taking} />
      <ShareItems report={report} />
    </>
  );
}

function FileHead({ report }: { report: ShareReport }) {
  return (
    <>
      <p>
        Line{' '}
        <strong>
          {report.lineCode} · {report.lineName}
        </strong>{' '}
        from {report.senderName}: {report.added} added, {report.updated} updated, {report.unchanged}{' '}
        unchanged, {plural(report.conflicts, 'conflict')}.
      </p>
      <MakerWords maker={report.maker} senderName={report.senderName} />
    </>
  );
}

/** Whose file it is, as far as a signature says it. */
function MakerWords({ maker, senderName }: Pick<ShareReport, 'maker' | 'senderName'>) {
  switch (maker.standing) {
    case 'PAIRED':
      return <p>Signed by {senderName}’s install, which is paired with this one.</p>;
    case 'OWN':
      return <p>This install made it.</p>;
    case 'UNSIGNED':
      return (
        <Caution>
          This is an older file, and nobody signed it: anybody may have made or changed it. Take it
          in only if you trust the way by which it came.
        </Caution>
      );
    case 'UNKNOWN':
      return (
        <Caution>
          It is signed, and was not changed since, but this install does not know who signed it. Ask{' '}
          {senderName} for the words of their install; they should be <strong>{maker.words}</strong>
          . They stand under “Partners” there.
        </Caution>
      );
  }
}

/** A conflict brings the other’s value, to be decided on. */
function bringsNothing({ added, updated, conflicts }: ShareReport): boolean {
  return added + updated + conflicts === 0;
}

function TakenOrTake({ report, taking }: LookedAtProps) {
  return report.applied ? (
    <Done>
      <p>
        <strong>Taken in.</strong> <Link to="/lines">See the lines</Link>
      </p>
    </Done>
  ) : (
    <div className="lw-form-buttons">
      <Button
        className="lw-primary"
        disabled={bringsNothing(report)}
        loading={taking.accepting}
        onClick={() => void taking.accept()}
      >
        Take it in
      </Button>
      <Button onClick={taking.restart}>Cancel</Button>
      {bringsNothing(report) && <span className="lw-quiet">Nothing in it is new here.</span>}
    </div>
  );
}
