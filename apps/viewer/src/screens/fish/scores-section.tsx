import { Button } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import {
  CORRECT_SCORE,
  FISH_EVIDENCE,
  WITHDRAW_SCORE,
  type FishEvidence,
  type FishFacts,
} from '../../api/fish.js';
import { useRead, type Read } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { EmptyPart } from '../../components/empty-part.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { ageText } from '../../wording/figures.js';
import { scoreText } from '../../wording/scores.js';
import { CorrectScoreForm } from './correct-score-form.js';
import { RecordScoresForm } from './record-scores-form.js';

type Score = FishEvidence['scores'][number];
type OpenSheet = { kind: 'record' } | { kind: 'correct' | 'withdraw'; score: Score } | null;

/** The latest score of each trait, the history on request, and recording. */
export function ScoresSection({ fish }: { fish: FishFacts }) {
  const read = useRead(FISH_EVIDENCE, { id: fish.id });
  const [all, setAll] = useState(false);
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const close = () => setSheet(null);
  return (
    <Section
      title="Scores"
      act
      actions={
        <>
          {(read.data?.fish.scores.length ?? 0) > 0 && (
            <Button size="xs" aria-expanded={all} onClick={() => setAll(!all)}>
              {all ? 'Latest only' : 'All scores'}
            </Button>
          )}
          {fish.mayScore && (
            <Button size="xs" onClick={() => setSheet({ kind: 'record' })}>
              Record scores
            </Button>
          )}
        </>
      }
    >
      <StandingScores read={read} all={all} setSheet={setSheet} />
      <Sheet
        title={`Record scores of ${fish.tag}`}
        opened={sheet?.kind === 'record'}
        onClose={close}
        size={640}
      >
        <RecordScoresForm fish={fish} onSaved={close} onCancel={close} />
      </Sheet>
      {sheet !== null && sheet.kind !== 'record' && <ScoreSheet sheet={sheet} onClose={close} />}
    </Section>
  );
}

function StandingScores({
  read,
  all,
  setSheet,
}: {
  read: Read<{ fish: FishEvidence }>;
  all: boolean;
  setSheet: Dispatch<SetStateAction<OpenSheet>>;
}) {
  return (
    <Shown read={read} what="the scores">
      {({ fish: evidence }) =>
        evidence.scores.length === 0 ? (
          <EmptyPart part="SCORES">
            Not scored yet. Record what you see and measure; each score keeps its date and the age
            of the fish.
          </EmptyPart>
        ) : all ? (
          <AllScores
            scores={evidence.scores}
            onCorrect={(score) => setSheet({ kind: 'correct', score })}
            onWithdraw={(score) => setSheet({ kind: 'withdraw', score })}
          />
        ) : (
          <LatestScores scores={evidence.latestScores} />
        )
      }
    </Shown>
  );
}

interface ScoreSheetProps {
  sheet: { kind: 'correct' | 'withdraw'; score: Score };
  onClose: () => void;
}

function ScoreSheet({ sheet: { kind, score }, onClose }: ScoreSheetProps) {
  if (kind === 'correct') return <CorrectScoreSheet score={score} onClose={onClose} />;
  return (
    <WithdrawRecord
      mutation={WITHDRAW_SCORE}
      // A score has no revision: a correction is a later score.
      record={{ id: score.id }}
      title={`Withdraw ${score.trait.name}`}
      what={`the score of ${score.scoredOn}`}
      onClose={onClose}
    />
  );
}

interface CorrectScoreSheetProps {
  score: Score;
  onClose: () => void;
}

function CorrectScoreSheet({ score, onClose }: CorrectScoreSheetProps) {
  const { save, saving, problem } = useSave(CORRECT_SCORE);
  return (
    <Sheet title={`Correct ${score.trait.name}`} opened onClose={onClose}>
      <CorrectScoreForm
        trait={score.trait}
        was={score.value}
        saving={saving}
        problem={problem}
        onCancel={onClose}
        onSubmit={async (value, reason) => {
          if ((await save({ input: { scoreId: score.id, value, reason } })) !== null) onClose();
        }}
      />
    </Sheet>
  );
}

function LatestScores({ scores }: { scores: FishEvidence['latestScores'] }) {
  return (
    <DataTable
      caption="Latest scores"
      rows={scores}
      rowKey={(score) => score.id}
      columns={[
        { key: 'trait', title: 'Trait', cell: (score) => score.trait.name },
        {
          key: 'value',
          title: 'Score',
          number: true,
          cell: (score) => scoreText(score.value, score.trait),
        },
        { key: 'on', title: 'Date', number: true, cell: (score) => score.scoredOn },
        {
          key: 'age',
          title: 'Age',
          number: true,
          cell: (score) => (score.ageDays === null ? '' : ageText(score.ageDays)),
        },
        { key: 'by', title: 'Scorer', wideOnly: true, cell: (score) => score.scorer },
      ]}
    />
  );
}

interface AllScoresProps {
  scores: readonly Score[];
  onCorrect: (score: Score) => void;
  onWithdraw: (score: Score) => void;
}

const stands = (score: Score): boolean => !score.corrected && score.withdrawn === null;

function stateText({ withdrawn, corrected, corrects, note }: Score): string {
  if (withdrawn !== null) return `withdrawn: ${withdrawn.reason}`;
  if (corrected) return 'corrected later';
  if (corrects === null) return note ?? '';
  return `correction${note === null ? '' : `: ${note}`}`;
}

const scoreColumns: readonly Column<Score>[] = [
  { key: 'trait', title: 'Trait', cell: (score) => score.trait.name },
  {
    key: 'value',
    title: 'Score',
    number: true,
    cell: (score) => (
      <span className={stands(score) ? undefined : 'lw-struck'}>
        {scoreText(score.value, score.trait)}
      </span>
    ),
  },
  { key: 'on', title: 'Date', number: true, cell: (score) => score.scoredOn },
  { key: 'state', title: 'Status', cell: stateText },
];

function AllScores({ scores, onCorrect, onWithdraw }: AllScoresProps) {
  return (
    <DataTable
      caption="All scores"
      rows={scores}
      rowKey={(score) => score.id}
      columns={[
        ...scoreColumns,
        {
          key: 'do',
          title: <span className="lw-heard">Actions</span>,
          cell: (score) =>
            stands(score) &&
            score.mayChange && (
              <ScoreActions
                of={`${score.trait.name} of ${score.scoredOn}`}
                onCorrect={() => onCorrect(score)}
                onWithdraw={() => onWithdraw(score)}
              />
            ),
        },
      ]}
    />
  );
}

interface ScoreActionsProps {
  of: string;
  onCorrect: () => void;
  onWithdraw: () => void;
}

function ScoreActions({ of, onCorrect, onWithdraw }: ScoreActionsProps) {
  return (
    <span className="lw-row-buttons">
      <button type="button" aria-label={`Correct ${of}`} onClick={onCorrect}>
        Correct
      </button>
      <button type="button" aria-label={`Withdraw ${of}`} onClick={onWithdraw}>
        Withdraw
      </button>
    </span>
  );
}
