import { Button } from '@mantine/core';
import {
  LINE_PURPOSES,
  SAY_PURPOSE,
  type PurposeLine,
  type PurposeVersion,
} from '../../api/line-purpose.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { MorePages } from '../../components/more-pages.js';
import { ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';
import { sentAgain } from './purpose-values.js';
import { changedParts, saidParts, type LookNames } from './purpose-words.js';

const PAGE = 10;

interface VersionsProps {
  line: PurposeLine;
  names: LookNames;
}

/** All that was said of the line, the newest first, with what each version changed. */
export function PurposeVersions(props: VersionsProps) {
  if (props.line.purpose.version === 0) return null;
  return (
    <Section title="Versions">
      <VersionPage {...props} after={null} before={0} />
    </Section>
  );
}

interface VersionPageProps extends VersionsProps {
  /** Where the page before ended, and how many versions were listed by then. */
  after: string | null;
  before: number;
}

function VersionPage({ line, names, after, before }: VersionPageProps) {
  // One more than is listed: what the last one changed is seen against the one before it.
  const read = useRead(LINE_PURPOSES, { id: line.id, first: PAGE + 1, after });
  const going = useSave(SAY_PURPOSE);
  const goBack = ({ version, content }: PurposeVersion) =>
    void going.save({
      input: {
        ...{ lineId: line.id, expectedVersion: line.purpose.version },
        ...{ content: sentAgain(content), note: `Back to version ${version}.` },
      },
    });
  return (
    <Shown read={read} what="the versions">
      {({ linePurposes: { edges, totalCount } }) => {
        const listed = edges.slice(0, PAGE);
        const pageInfo = {
          hasNextPage: edges.length > PAGE,
          endCursor: listed.at(-1)?.cursor ?? null,
        };
        const page = { totalCount, pageInfo };
        const rows = listed.map(({ node }, k) => ({ node, older: edges[k + 1]?.node ?? null }));
        return (
          <>
            <VersionsTable {...{ line, names, rows, goBack }} going={going.saving} />
            <ProblemNotice problem={going.problem} />
            <MorePages
              page={page}
              listed={before + listed.length}
              what="versions"
              next={(cursor) => (
                <VersionPage {...{ line, names }} after={cursor} before={before + listed.length} />
              )}
            />
          </>
        );
      }}
    </Shown>
  );
}

interface VersionsTableProps extends VersionsProps {
  rows: readonly Omit<ChangedProps, 'names'>[];
  going: boolean;
  goBack: (version: PurposeVersion) => void;
}

function VersionsTable({ line, names, rows, going, goBack }: VersionsTableProps) {
  return (
    <DataTable
      caption="Versions of what the line is for"
      rows={rows}
      rowKey={({ node }) => String(node.version)}
      columns={[
        { key: 'version', title: 'Version', cell: ({ node }) => <Said {...{ node }} /> },
        {
          key: 'changed',
          title: 'What changed',
          cell: ({ node, older }) => <Changed {...{ node, older, names }} />,
        },
        {
          key: 'back',
          title: '',
          cell: ({ node }) =>
            node.version === line.purpose.version ? (
              'in force'
            ) : (
              <Button size="xs" loading={going} onClick={() => goBack(node)}>
                Go back to version {node.version}
              </Button>
            ),
        },
      ]}
    />
  );
}

function Said({ node }: { node: PurposeVersion }) {
  return (
    <>
      <strong>{node.version}</strong> · {node.by}
      <br />
      <span className="lw-quiet">{node.at === null ? '' : showTime(node.at)}</span>
    </>
  );
}

interface ChangedProps {
  node: PurposeVersion;
  older: PurposeVersion | null;
  names: LookNames;
}

function Changed({ node, older, names }: ChangedProps) {
  const changed = older === null ? [] : changedParts(older.content, node.content, names);
  return (
    <>
      {node.note !== null && <p>“{node.note}”</p>}
      {older === null ? (
        <p>The first version.</p>
      ) : (
        <ul>
          {changed.map(({ name, before, after }) => (
            <li key={name}>
              {name}: {before === '' ? 'new' : before} → {after === '' ? 'removed' : after}
            </li>
          ))}
          {changed.length === 0 && <li>Nothing but the note.</li>}
        </ul>
      )}
      <details>
        <summary>All of it</summary>
        <ul>
          {saidParts(node.content, names).map(({ name, said }, k) => (
            <li key={`${name} ${String(k)}`}>
              {name}: {said}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
