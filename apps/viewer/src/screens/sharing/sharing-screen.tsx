import { Button, Checkbox, FileButton, NativeSelect } from '@mantine/core';
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
import { plural } from '../../wording/figures.js';
import { useSession } from '../../session/session-context.js';
import { Differences } from './differences.js';
import { PartnersSection } from './partners-section.js';
import { ShareItems } from './share-items.js';
import { type TakingIn, useTakingIn } from './use-taking-in.js';
import type { ResultOf } from '../../api/graphql.js';

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

interface GiveLineProps {
  line: ResultOf<typeof LINES>['lines'][number];
  setChosen: Dispatch<SetStateAction<string>>;
  lines: ResultOf<typeof LINES>['lines'][number][];
}

const yes = (wished: boolean): string => (wished ? 'yes' : 'no');

function GiveLine({ line, setChosen, lines }: GiveLineProps) {
  const [photos, setPhotos] = useState(true);
  const [plans, setPlans] = useState(false);
  return (
    <>
      <p className="lw-words">
        The file holds the line’s fish, the ancestors they need, its spawns with counts, care and
        water readings, scores with their sheets, what was seen on the fish, and your own loci with
        the line’s settings. It keeps every record’s identity, so that later files join up, and it
        is signed, so that your partner sees that it came from you as it is. A page in it,
        read-me.html, can be read without any program.
      </p>
      <p className="lw-words">
        Not in it: what the line is for, its plan and its rounds, and settings of loci that hold for
        all lines. <strong>Whoever has the file can read all of it.</strong>
      </p>
      <div className="lw-form">
        <Checkbox
          label="With photos"
          checked={photos}
          onChange={(event) => setPhotos(event.currentTarget.checked)}
        />
        <Checkbox
          label="With your care plan of the line"
          checked={plans}
          onChange={(event) => setPlans(event.currentTarget.checked)}
        />
      </div>
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
        <a
          href={`/export/line/${line.id}.zip?photos=${yes(photos)}&plans=${yes(plans)}`}
          download={`${line.code}.zip`}
        >
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
