import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate, useParams, type NavigateFunction } from 'react-router';
import { SPAWN, WITHDRAW_SPAWN, type SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { useSave, type SaveOf } from '../../api/use-save.js';
import { Facts } from '../../components/facts.js';
import { FishLink, PairLinks } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawSheet } from '../../components/withdraw-form.js';
import { KeptOnDevice } from '../../panels/kept-on-device.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { WaterReadings } from '../../panels/water-readings.js';
import { ageToday } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { BroodOutlookSection } from './brood-outlook-section.js';
import { CorrectSpawnForm } from './correct-spawn-form.js';
import { CountsSection } from './counts-section.js';
import { CareSection } from './care-section.js';
import { FailedForm } from './failed-form.js';
import { LogSection } from './log-section.js';
import { LossesSection } from './losses-section.js';
import { ObservedClassesSection } from './observed-classes-section.js';
import { SpawnFishSection } from './spawn-fish-section.js';
import { UnknownParents } from './unknown-parents.js';
import { SurvivalSection } from './survival-section.js';
import { SpawnPhotos } from './spawn-photos.js';
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
  return <SpawnPage key={id} spawn={read.data.spawn} />;
}

type OpenSheet = 'correct' | 'withdraw' | 'failed' | null;

function SpawnPage({ spawn }: { spawn: SpawnFacts }) {
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const navigate = useNavigate();
  const withdrawal = useSave(WITHDRAW_SPAWN);
  const close = () => setSheet(null);
  return (
    <Screen
      title={`Spawn ${spawn.tag}`}
      lead={<PairLinks sire={spawn.sire} dam={spawn.dam} />}
      actions={
        <>
          <Link className="lw-link-button" to={`/print?spawn=${spawn.id}`}>
            Print
          </Link>
          <Button onClick={() => setSheet('correct')}>Correct</Button>
          {!spawn.failed && <Button onClick={() => setSheet('failed')}>Failed</Button>}
          {spawn.withdrawn === null && (
            <Button onClick={() => setSheet('withdraw')}>Withdraw</Button>
          )}
        </>
      }
    >
      {spawn.withdrawn !== null && (
        <div className="lw-notice lw-notice-caution" role="note">
          Withdrawn on {spawn.withdrawn.at.slice(0, 10)}: {spawn.withdrawn.reason}
        </div>
      )}
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
      <ObservedClassesSection spawn={spawn} />
      <BroodOutlookSection spawn={spawn} />
      <HistoryPanel recordKind="SPAWN" recordId={spawn.id} />
      <Sheet title={`Correct spawn ${spawn.tag}`} opened={sheet === 'correct'} onClose={close}>
        <CorrectSpawnForm spawn={spawn} onSaved={close} onCancel={close} />
      </Sheet>
      <Sheet title={`Spawn ${spawn.tag} failed`} opened={sheet === 'failed'} onClose={close}>
        <FailedForm spawn={spawn} onSaved={close} onCancel={close} />
      </Sheet>
      <WithdrawSpawn
        spawn={spawn}
        sheet={sheet}
        close={close}
        withdrawal={withdrawal}
        navigate={navigate}
      />
    </Screen>
  );
}

function WithdrawSpawn({
  spawn,
  sheet,
  close,
  withdrawal,
  navigate,
}: {
  spawn: SpawnFacts;
  sheet: string | null;
  close: () => void;
  withdrawal: SaveOf<typeof WITHDRAW_SPAWN>;
  navigate: NavigateFunction;
}) {
  return (
    <WithdrawSheet
      title={`Withdraw spawn ${spawn.tag}`}
      opened={sheet === 'withdraw'}
      onClose={close}
      what={`spawn ${spawn.tag}`}
      saving={withdrawal.saving}
      problem={withdrawal.problem}
      onSubmit={async (reason) => {
        const input = { id: spawn.id, reason, revision: spawn.revision };
        if ((await withdrawal.save({ input })) !== null) void navigate('/spawns');
      }}
    />
  );
}

function SpawnFactsSection({ spawn }: { spawn: SpawnFacts }) {
  return (
    <Section title="Facts">
      <Facts
        facts={[
          { name: 'Sire', value: <FishLink fish={spawn.sire} /> },
          { name: 'Dam', value: <FishLink fish={spawn.dam} /> },
          {
            name: 'F of the brood',
            value: (
              <>
                <strong>{inbreedingText(spawn)}</strong>
                {spawn.sire !== null && spawn.dam !== null && (
                  <>
                    {' '}
                    <Link to={`/fish/${spawn.sire.id}/pedigree?with=${spawn.dam.id}`}>why?</Link>
                  </>
                )}
              </>
            ),
          },
          {
            name: 'Line',
            value:
              spawn.line === null ? null : (
                <Link to={`/lines/${spawn.line.id}`}>{spawn.line.code}</Link>
              ),
          },
          { name: 'Spawned', value: spawn.spawnedOn },
          {
            name: 'Hatched',
            value:
              spawn.hatchDate === null
                ? null
                : `${spawn.hatchDate} (${ageToday(spawn.hatchDate) ?? ''})`,
          },
          { name: 'Purpose', value: spawn.purpose },
          ...(spawn.failed
            ? [{ name: 'Outcome', value: `failed: ${spawn.failedReason ?? 'no reason recorded'}` }]
            : []),
          {
            name: 'Planned',
            value:
              spawn.pairing === null ? 'recorded without a plan' : `on ${spawn.pairing.plannedOn}`,
          },
          {
            name: 'Record kept by',
            value: spawn.person.here ? `${spawn.person.name} (here)` : spawn.person.name,
          },
          { name: 'Note', value: spawn.note },
        ]}
      />
    </Section>
  );
}
