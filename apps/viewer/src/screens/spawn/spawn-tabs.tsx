import { Button, Tabs } from '@mantine/core';
import { useState, type ReactNode } from 'react';
import type { SpawnFacts } from '../../api/spawns.js';
import { CommentsSection } from '../../panels/comments-section.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { WaterReadings } from '../../panels/water-readings.js';
import { useMayChange } from '../../session/may.js';
import { BroodOutlookSection } from './brood-outlook-section.js';
import { CareSection } from './care-section.js';
import { CountsSection } from './counts-section.js';
import { KeepingSection } from './keeping-section.js';
import { LogSection } from './log-section.js';
import { LossesSection } from './losses-section.js';
import { NextThingSection, type SpawnTab } from './next-thing-section.js';
import { ObservedClassesSection } from './observed-classes-section.js';
import { SpawnFactsSection } from './spawn-facts-section.js';
import { SpawnFishSection } from './spawn-fish-section.js';
import { SpawnPhotos } from './spawn-photos.js';
import { SurvivalSection } from './survival-section.js';
import { UnknownParents } from './unknown-parents.js';

const titles: Record<SpawnTab, string> = {
  log: 'Log',
  fish: 'Fish',
  care: 'Plan and water',
  about: 'About',
};

interface SpawnTabsProps {
  spawn: SpawnFacts;
  /** What changes the record itself. */
  children: ReactNode;
}

/** The page of a spawn on a phone: the one thing to do now, and the rest behind tabs. What is typed in a tab is asked about before it goes. */
export function SpawnTabs({ spawn, children }: SpawnTabsProps) {
  const [tab, setTab] = useState<SpawnTab>('log');
  const mayChange = useMayChange();
  return (
    <>
      {mayChange && <NextThingSection spawn={spawn} onTab={setTab} />}
      <Tabs value={tab} onChange={(value) => setTab((value ?? 'log') as SpawnTab)}>
        <Tabs.List aria-label={`Spawn ${spawn.tag}`}>
          {(Object.keys(titles) as SpawnTab[]).map((value) => (
            <Tabs.Tab key={value} value={value}>
              {titles[value]}
            </Tabs.Tab>
          ))}
        </Tabs.List>
        {(Object.keys(titles) as SpawnTab[]).map((value) => (
          <Tabs.Panel key={value} value={value}>
            {/* A tab that was never opened has asked for nothing. */}
            <Opened now={value === tab}>
              <TabOf tab={value} spawn={spawn} />
            </Opened>
          </Tabs.Panel>
        ))}
      </Tabs>
      {mayChange && <RecordMenu>{children}</RecordMenu>}
    </>
  );
}

/** Drawn once it was in view, and kept from then on: nothing typed is lost by looking at another tab. */
function Opened({ now, children }: { now: boolean; children: ReactNode }) {
  const [opened, setOpened] = useState(now);
  if (now && !opened) setOpened(true);
  return opened ? children : null;
}

/** What is seldom wanted stands behind one button. */
function RecordMenu({ children }: { children: ReactNode }) {
  const [open, setOpen] = useState(false);
  return (
    <div>
      <Button aria-expanded={open} onClick={() => setOpen(!open)}>
        Change this spawn
      </Button>
      {open && <div className="lw-actions">{children}</div>}
    </div>
  );
}

function TabOf({ tab, spawn }: { tab: SpawnTab; spawn: SpawnFacts }) {
  if (tab === 'log')
    return (
      <>
        <LogSection spawn={spawn} />
        <CountsSection spawn={spawn} />
        <LossesSection spawn={spawn} />
      </>
    );
  if (tab === 'fish')
    return (
      <>
        <SpawnFishSection spawnId={spawn.id} />
        <SpawnPhotos spawn={spawn} />
        <KeepingSection spawnId={spawn.id} />
        <ObservedClassesSection spawn={spawn} />
        <BroodOutlookSection spawn={spawn} />
      </>
    );
  if (tab === 'care')
    return (
      <>
        <CareSection spawnId={spawn.id} />
        <WaterReadings target={{ spawnId: spawn.id }} of={`spawn ${spawn.tag}`} />
        <SurvivalSection spawnId={spawn.id} tag={spawn.tag} />
      </>
    );
  return (
    <>
      <UnknownParents spawn={spawn} />
      <SpawnFactsSection spawn={spawn} />
      <CommentsSection subject={{ spawnId: spawn.id }} of={`spawn ${spawn.tag}`} />
      <HistoryPanel recordKind="SPAWN" recordId={spawn.id} />
    </>
  );
}
