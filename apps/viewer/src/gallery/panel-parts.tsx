import { BACKUP_STATE } from '../api/backup.js';
import { COMPUTATION } from '../api/carriers.js';
import { BROOD_SIZE } from '../api/crosses.js';
import { RECORD_HISTORY } from '../api/history.js';
import { LINE_CHOICES } from '../api/lines.js';
import { PEOPLE } from '../api/people.js';
import { BackupFailed, BackupSection } from '../panels/backup-section.js';
import { BroodSizeField } from '../panels/brood-size-field.js';
import { FryToRaise } from '../panels/fry-to-raise.js';
import { HistoryPanel } from '../panels/history-panel.js';
import { WaitingComputation } from '../panels/waiting-computation.js';
import { clubParts } from './club-parts.js';
import { handOverParts } from './hand-over-parts.js';
import { Answering, answers, neverAnswers, refuses } from './invented-api.js';
import { aBackupState, aCross, aHistory, inventedPeople, lineChoices } from './invented-records.js';
import { nothing } from './invented-words.js';
import { meritPanelParts } from './merit-panel-parts.js';
import { measureParts } from './measure-parts.js';
import { photoPanelParts } from './photo-panel-parts.js';
import type { Parts } from './parts.js';
import { scanParts } from './scan-parts.js';
import { waterPanelParts } from './water-panel-parts.js';

const failed = {
  at: '2026-03-12T08:00:00Z',
  message: 'The disk is full: make room, then try again.',
};

const computing = (state: 'RUNNING' | 'CANCELLED' | 'FAILED', progress: number) => {
  const errorMessage = state === 'FAILED' ? 'It took more than a minute.' : null;
  const computation = { id: state, state, progress, errorMessage };
  return (
    <Answering with={[answers(COMPUTATION, { computation })]}>
      <WaitingComputation
        computation={computation}
        what="double tail"
        whileGoing="You may leave this page."
        onDone={nothing}
      />
    </Answering>
  );
};

const names = [
  answers(LINE_CHOICES, { lines: lineChoices }),
  answers(PEOPLE, { people: inventedPeople }),
];

/** Parts that fetch for themselves, here from invented answers. */
export const panelParts: Parts = {
  WaitingComputation: {
    'under way': () => computing('RUNNING', 0.42),
    stopped: () => computing('CANCELLED', 0.42),
    failed: () => computing('FAILED', 0.9),
  },
  HistoryPanel: {
    'closed; opens to two changes': () => (
      <Answering with={[...names, answers(RECORD_HISTORY, { history: aHistory })]}>
        <HistoryPanel recordKind="FISH" recordId="f1" />
      </Answering>
    ),
    'closed; opens to a refusal': () => (
      <Answering with={[...names, refuses(RECORD_HISTORY, 'There is no such fish.')]}>
        <HistoryPanel recordKind="FISH" recordId="f2" />
      </Answering>
    ),
  },
  BroodSizeField: {
    typed: () => <BroodSizeField label="Brood size" typed="100" onTyped={nothing} />,
    refused: () => <BroodSizeField label="Brood size" typed="0" onTyped={nothing} />,
  },
  FryToRaise: {
    answered: () => (
      <Answering with={[answers(BROOD_SIZE, { broodSize: 11 })]}>
        <FryToRaise classes={aCross.classes} />
      </Answering>
    ),
    'on its way': () => (
      <Answering with={[neverAnswers(BROOD_SIZE)]}>
        <FryToRaise classes={aCross.classes} />
      </Answering>
    ),
  },
  BackupSection: {
    'two made': () => (
      <Answering with={[answers(BACKUP_STATE, { backupState: aBackupState })]}>
        <BackupSection />
      </Answering>
    ),
    'none made': () => (
      <Answering
        with={[
          answers(BACKUP_STATE, { backupState: { ...aBackupState, backups: [], madeCount: 0 } }),
        ]}
      >
        <BackupSection />
      </Answering>
    ),
    refused: () => (
      <Answering with={[refuses(BACKUP_STATE, 'The folder of backups cannot be read.')]}>
        <BackupSection />
      </Answering>
    ),
  },
  BackupFailed: {
    failed: () => <BackupFailed state={{ ...aBackupState, failed }} />,
  },
  ...handOverParts,
  ...clubParts,
  ...meritPanelParts,
  ...scanParts,
  ...waterPanelParts,
  ...measureParts,
  ...photoPanelParts,
};
