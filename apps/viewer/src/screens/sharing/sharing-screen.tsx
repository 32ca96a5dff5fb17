import { Button, NativeSelect } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Link } from 'react-router';
import type { ShareReport } from '../../api/sharing.js';
import { LINES } from '../../api/lines.js';
import { DIFFERENCES } from '../../api/sharing.js';
import { useRead } from '../../api/use-read.js';
import { Caution, Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { TextFile } from '../../components/text-file.js';
import { plural } from '../../wording/figures.js';
import { Differences } from './differences.js';
import { ShareItems } from './share-items.js';
import { type TakingIn, useTakingIn } from './use-taking-in.js';
import type { ResultOf } from '../../api/graphql.js';

/** A line goes out as one file, and a partner's file comes in after a look at what it would change. */
export function SharingScreen() {
  const differences = useRead(DIFFERENCES, {});
  return (
    <Screen title="Share a line">
      <ProblemNotice problem={differences.problem} />
      <Differences read={differences} />
      <GiveSection />
      <TakeSection onTaken={differences.reload} />
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

interface GiveLineProps {
  line: ResultOf<typeof LINES>['lines'][number];
  setChosen: Dispatch<SetStateAction<string>>;
  lines: ResultOf<typeof LINES>['lines'][number][];
}

function GiveLine({ line, setChosen, lines }: GiveLineProps) {
  return (
    <>
      <p className="lw-words">
        The file holds the line’s fish, the ancestors they need, its spawns with counts, care and
        water readings, scores with their sheets, what was seen on the fish, and your own loci with
        the line’s settings. It keeps every record’s identity, so that later files join up.
      </p>
      <p className="lw-words">
        Not in it: <strong>photos</strong> (send those apart), care plans, and settings of loci that
        hold for all lines.
      </p>
      <div className="lw-filter">
        <NativeSelect
          label="Line to give"
          className="lw-filter-text"
          value={line.id}
          onChange={(event) => setChosen(event.currentTarget.value)}
          data={lines.map(({ id, code, name }) => ({
            value: id,
            label: `${code} · ${name}`,
          }))}
        />
        <a href={`/export/line/${line.id}.json`} download>
          Download the file of {line.code}
        </a>
      </div>
      <Caution>
        With live fish, tell the partner of any disease seen, and have them kept apart on arrival.
        The law of your place says who may sell fish, give them away or send them: ask first.{' '}
        <Link to="/cautions">All cautions</Link>
      </Caution>
    </>
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
        <TextFile
          choose="Choose a line’s file"
          accept=".json,application/json"
          pasteLabel="Or paste the file’s text"
          pastedName="pasted.json"
          busy={taking.looking}
          onText={(_, given) => void taking.look(given)}
        />
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
    <p>
      Line{' '}
      <strong>
        {report.lineCode} · {report.lineName}
      </strong>{' '}
      from {report.senderName}: {report.added} added, {report.updated} updated, {report.unchanged}{' '}
      unchanged, {plural(report.conflicts, 'conflict')}.
    </p>
  );
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
