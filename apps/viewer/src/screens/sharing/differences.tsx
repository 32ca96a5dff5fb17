import { Button } from '@mantine/core';
import {
  DECIDE_DIFFERENCE,
  DIFFERENCES,
  type DifferenceOf,
  type RecordDifferences,
} from '../../api/sharing.js';
import type { Read } from '../../api/use-read.js';
import type { ResultOf } from '../../api/graphql.js';
import { useSave } from '../../api/use-save.js';
import { Facts } from '../../components/facts.js';
import { ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { capital, fieldWord, recordWord } from '../../wording/words.js';
import styles from './differences.module.css';

interface DifferencesProps {
  read: Read<ResultOf<typeof DIFFERENCES>>;
}

/** What was changed here and at a partner's, side by side; one press decides. Nothing is drawn while nothing waits. */
export function Differences({ read }: DifferencesProps) {
  const page = read.data?.differences;
  const records = (page?.edges ?? [])
    .map(({ node }) => node)
    .filter(({ differences }) => differences.length > 0);
  if (page === undefined || records.length === 0) return null;
  return (
    <Section title="Changed in two places">
      <p className="lw-words">
        These were changed here and in a partner’s fish room before either knew of it. What you see
        elsewhere is what stands here. Choose what is right; your choice goes along with the line,
        and then holds there too.
      </p>
      {records.map((record) => (
        <RecordCard key={record.recordId} record={record} onDecided={read.reload} />
      ))}
      {page.pageInfo.hasNextPage && (
        <p className="lw-quiet">
          {page.edges.length} of {page.totalCount} records are shown; the next come when these are
          decided.
        </p>
      )}
    </Section>
  );
}

interface RecordCardProps {
  record: RecordDifferences;
  onDecided: () => void;
}

function RecordCard({ record, onDecided }: RecordCardProps) {
  const title = `${capital(recordWord[record.recordKind])} ${record.label}`;
  return (
    <article className={styles['record']}>
      <h3>{title}</h3>
      {record.differences.map((difference) => (
        <PartChoice
          key={difference.part}
          of={title}
          recordId={record.recordId}
          difference={difference}
          onDecided={onDecided}
        />
      ))}
    </article>
  );
}

interface PartChoiceProps {
  /** The record, as it is called. */
  of: string;
  recordId: string;
  difference: DifferenceOf;
  onDecided: () => void;
}

function PartChoice({ of, recordId, difference, onDecided }: PartChoiceProps) {
  const { save, saving, problem } = useSave(DECIDE_DIFFERENCE);
  const choose = async (version: string) => {
    const input = { recordId, part: difference.part, version };
    if ((await save({ input })) !== null) onDecided();
  };
  return (
    <>
      <div className={styles['versions']}>
        {difference.versions.map((version) => (
          <div key={version.key} className={styles['version']}>
            <p>
              <strong>{whose(version)}</strong>
            </p>
            <Facts
              facts={version.values.map(({ field, value }) => ({ name: fieldWord(field), value }))}
            />
            <Button
              size="xs"
              loading={saving}
              aria-label={`${version.here ? 'Keep' : 'Take'} ${fieldWord(difference.part)} of ${of}: ${whose(version)}`}
              onClick={() => void choose(version.key)}
            >
              {version.here ? 'Keep this' : 'Take this'}
            </Button>
          </div>
        ))}
      </div>
      <ProblemNotice problem={problem} />
    </>
  );
}

function whose({ here, from }: DifferenceOf['versions'][number]): string {
  if (here) return 'Here';
  return from.length === 0 ? 'In another fish room' : `From ${from.join(' or ')}`;
}
