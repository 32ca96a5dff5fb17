import { END_SESSION, OPEN_SESSIONS, type OpenSession } from '../../api/people.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';
import { endColumn } from './end-column.js';

/** Browsers in which you are signed in; each can be signed out from here. */
export function SessionsSection() {
  const read = useRead(OPEN_SESSIONS, {});
  const { save, saving, problem } = useSave(END_SESSION);
  return (
    <Section title="Where you are signed in">
      <Shown read={read} what="the sessions">
        {({ openSessions }) => (
          <DataTable
            caption="Where you are signed in"
            rows={openSessions}
            rowKey={({ id }) => id}
            columns={[
              {
                key: 'device',
                title: 'Browser',
                cell: ({ device, current }) =>
                  `${device === '' ? 'Not named' : device}${current ? ' (this one)' : ''}`,
              },
              {
                key: 'seen',
                title: 'Last here',
                unbroken: true,
                cell: ({ seenAt }) => showTime(seenAt),
              },
              {
                key: 'opened',
                title: 'Signed in',
                unbroken: true,
                wideOnly: true,
                cell: ({ openedAt }) => showTime(openedAt),
              },
              endColumn<OpenSession>({
                ...{ word: 'Sign out', saving },
                label: ({ device }) =>
                  `Sign out ${device === '' ? 'the browser without a name' : device}`,
                onEnd: ({ id }) => void save({ id }),
                canEnd: ({ current }) => !current,
              }),
            ]}
          />
        )}
      </Shown>
      <ProblemNotice problem={problem} />
    </Section>
  );
}
