import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { useState } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import { SPAWN, WITHDRAW_SPAWN, type SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { PairLinks } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawnNotice, WithdrawRecord } from '../../components/withdraw-record.js';
import { KeptOnDevice } from '../../panels/kept-on-device.js';
import { CommentsSection } from '../../panels/comments-section.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { NotSharedContext } from '../../session/not-shared.js';
import { MayChangeContext } from '../../session/may.js';
import { WaterReadings } from '../../panels/water-readings.js';
import { BroodOutlookSection } from './brood-outlook-section.js';
import { CorrectSpawnForm } from './correct-spawn-form.js';
import { CountsSection } from './counts-section.js';
import { CareSection } from './care-section.js';
import { FailedForm } from './failed-form.js';
import { KeepingSection } from './keeping-section.js';
import { LogSection } from './log-section.js';
import { LossesSection } from './losses-section.js';
import { ObservedClassesSection } from './observed-classes-section.js';
import { SpawnFactsSection } from './spawn-facts-section.js';
import { SpawnFishSection } from './spawn-fish-section.js';
import { UnknownParents } from './unknown-parents.js';
import { SurvivalSection } from './survival-section.js';
import { SpawnPhotos } from './spawn-photos.js';
import { SpawnTabs } from './spawn-tabs.js';
import styles from './spawn-screen.module.css';

export function SpawnScreen() {
  const { id = '' } = useParams();
  const read = useRead(SPAWN, { id });
  if (read.data === undefined) {
    return (
      <Screen title="Spawn">
        <Shown read={read} what="the spawn">
          {() => null}
        </Shown>
        <KeptOnDevice problem={read.problem} spawnId={id} />
      </Screen>
    );
  }
  const { spawn } = read.data;
  return (
    <MayChangeContext value={spawn.mayChange}>
      <NotSharedContext value={spawn.notShared}>
        <SpawnPage key={id} spawn={spawn} />
      </NotSharedContext>
    </MayChangeContext>
  );
}

type OpenSheet = 'correct' | 'withdraw' | 'failed' | null;

function SpawnPage({ spawn }: { spawn: SpawnFacts }) {
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  return (
    <Screen
      title={`Spawn ${spawn.tag}`}
      lead={<PairLinks sire={spawn.sire} dam={spawn.dam} />}
      {...(!phone && { actions: <SpawnActions spawn={spawn} onOpen={setSheet} /> })}
    >
      <WithdrawnNotice withdrawn={spawn.withdrawn} />
      {phone ? (
        <SpawnTabs spawn={spawn}>
          <SpawnActions spawn={spawn} onOpen={setSheet} />
        </SpawnTabs>
      ) : (
        <SpawnSections spawn={spawn} />
      )}
      <SpawnSheets spawn={spawn} sheet={sheet} onClose={() => setSheet(null)} />
    </Screen>
  );
}

interface SpawnActionsProps {
  spawn: SpawnFacts;
  onOpen: (sheet: OpenSheet) => void;
}

function SpawnActions({ spawn, onOpen }: SpawnActionsProps) {
  return (
    <>
      <Link className="lw-link-button" to={`/print?spawn=${spawn.id}`}>
        Print
      </Link>
      <Button onClick={() => onOpen('correct')}>Correct</Button>
      {!spawn.failed && <Button onClick={() => onOpen('failed')}>Failed</Button>}
      {spawn.withdrawn === null && <Button onClick={() => onOpen('withdraw')}>Withdraw</Button>}
    </>
  );
}

function SpawnSections({ spawn }: { spawn: SpawnFacts }) {
  return (
    <>
      <UnknownParents spawn={spawn} />
      <div className="lw-columns">
        <div>
          <SpawnFactsSection spawn={spawn} />
          <CountsSection spawn={spawn} />
        </div>
        <div className={styles['first-on-phone']}>
          <LogSection spawn={spawn} />
          <LossesSection spawn={spawn} />
        </div>
      </div>
      <CareSection spawnId={spawn.id} />
      <div className="lw-columns">
        <SurvivalSection spawnId={spawn.id} tag={spawn.tag} />
        <WaterReadings target={{ spawnId: spawn.id }} of={`spawn ${spawn.tag}`} />
      </div>
      <SpawnPhotos spawn={spawn} />
      <SpawnFishSection spawnId={spawn.id} />
      <KeepingSection spawnId={spawn.id} />
      <ObservedClassesSection spawn={spawn} />
      <BroodOutlookSection spawn={spawn} />
      <CommentsSection subject={{ spawnId: spawn.id }} of={`spawn ${spawn.tag}`} />
      <HistoryPanel recordKind="SPAWN" recordId={spawn.id} />
    </>
  );
}

interface SpawnSheetsProps {
  spawn: SpawnFacts;
  sheet: OpenSheet;
  onClose: () => void;
}

/** What can be done with the record, each over the screen. */
function SpawnSheets({ spawn, sheet, onClose }: SpawnSheetsProps) {
  const navigate = useNavigate();
  return (
    <>
      <Sheet title={`Correct spawn ${spawn.tag}`} opened={sheet === 'correct'} onClose={onClose}>
        <CorrectSpawnForm spawn={spawn} onSaved={onClose} onCancel={onClose} />
      </Sheet>
      <Sheet title={`Spawn ${spawn.tag} failed`} opened={sheet === 'failed'} onClose={onClose}>
        <FailedForm spawn={spawn} onSaved={onClose} onCancel={onClose} />
      </Sheet>
      <WithdrawRecord
        mutation={WITHDRAW_SPAWN}
        record={spawn}
        title={`Withdraw spawn ${spawn.tag}`}
        what={`spawn ${spawn.tag}`}
        opened={sheet === 'withdraw'}
        onClose={onClose}
        onWithdrawn={() => void navigate('/spawns')}
      />
    </>
  );
}
