import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate, useParams, type NavigateFunction } from 'react-router';
import { FISH_FACTS, WITHDRAW_FISH, type FishFacts } from '../../api/fish.js';
import { useRead } from '../../api/use-read.js';
import { useSave, type SaveOf } from '../../api/use-save.js';
import { DispositionMark, SexMark } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawSheet } from '../../components/withdraw-form.js';
import { KeptOnDevice } from '../../panels/kept-on-device.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { CarriersSection } from './carriers-section.js';
import { CorrectFishForm } from './correct-fish-form.js';
import { DecideForm } from './decide-form.js';
import { FishFactsSection } from './fish-facts-section.js';
import { FishFamilySections } from './fish-family-sections.js';
import { FishPedigreeSection } from './fish-pedigree-section.js';
import { FishPhotos } from './fish-photos.js';
import { GenotypesSection } from './genotypes-section.js';
import { InbreedingSourcesSection } from './inbreeding-sources-section.js';
import { PassesOnSection } from './passes-on-section.js';
import { ScoresSection } from './scores-section.js';
import { SeenSection } from './seen-section.js';
import { SheetScoringsSection } from './sheet-scorings-section.js';

type OpenSheet = 'decide' | 'correct' | 'withdraw' | null;

export function FishScreen() {
  const { id = '' } = useParams();
  const read = useRead(FISH_FACTS, { id });
  if (read.data === undefined) {
    return (
      <Screen title="Fish">
        <Shown read={read} what="the fish">
          {() => null}
        </Shown>
        <KeptOnDevice problem={read.problem} fishId={id} />
      </Screen>
    );
  }
  return <FishPage key={id} fish={read.data.fish} />;
}

function FishPage({ fish }: { fish: FishFacts }) {
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const navigate = useNavigate();
  const withdrawal = useSave(WITHDRAW_FISH);
  const close = () => setSheet(null);
  return (
    <Screen
      title={fish.tag}
      heading={
        <>
          {fish.tag}
          {fish.name !== null && <span className="lw-quiet"> {fish.name}</span>}
        </>
      }
      lead={<FishLead fish={fish} />}
      actions={
        <>
          <Button className="lw-primary" onClick={() => setSheet('decide')}>
            Decide
          </Button>
          <Link className="lw-link-button" to={`/print?fish=${fish.id}`}>
            Print label
          </Link>
          <Button onClick={() => setSheet('correct')}>Correct</Button>
          {fish.withdrawn === null && (
            <Button onClick={() => setSheet('withdraw')}>Withdraw</Button>
          )}
        </>
      }
    >
      {fish.withdrawn !== null && (
        <div className="lw-notice lw-notice-caution" role="note">
          Withdrawn on {fish.withdrawn.at.slice(0, 10)}: {fish.withdrawn.reason}
        </div>
      )}
      <div className="lw-columns">
        <FishFactsSection fish={fish} />
        <div>
          <ScoresSection fish={fish} />
          <SheetScoringsSection fish={fish} />
          <SeenSection fish={fish} />
          <GenotypesSection fish={fish} />
        </div>
      </div>
      <PassesOnSection fish={fish} />
      <CarriersSection fish={fish} />
      <FishPhotos fish={fish} />
      <FishPedigreeSection fish={fish} />
      <InbreedingSourcesSection fish={fish} />
      <FishFamilySections fishId={fish.id} />
      <HistoryPanel recordKind="FISH" recordId={fish.id} />
      <Sheet title={`Decide on ${fish.tag}`} opened={sheet === 'decide'} onClose={close}>
        <DecideForm fish={fish} onSaved={close} onCancel={close} />
      </Sheet>
      <Sheet title={`Correct ${fish.tag}`} opened={sheet === 'correct'} onClose={close}>
        <CorrectFishForm fish={fish} onSaved={close} onCancel={close} />
      </Sheet>
      <WithdrawFish
        fish={fish}
        sheet={sheet}
        close={close}
        withdrawal={withdrawal}
        navigate={navigate}
      />
    </Screen>
  );
}

function FishLead({ fish }: { fish: FishFacts }) {
  return (
    <>
      <SexMark sex={fish.sex} /> · <DispositionMark disposition={fish.disposition} /> ·{' '}
      <strong>F {inbreedingText(fish)}</strong>
      {fish.line !== null && (
        <>
          {' '}
          · line <Link to={`/lines/${fish.line.id}`}>{fish.line.code}</Link>
        </>
      )}
    </>
  );
}

function WithdrawFish({
  fish,
  sheet,
  close,
  withdrawal,
  navigate,
}: {
  fish: FishFacts;
  sheet: string | null;
  close: () => void;
  withdrawal: SaveOf<typeof WITHDRAW_FISH>;
  navigate: NavigateFunction;
}) {
  return (
    <WithdrawSheet
      title={`Withdraw ${fish.tag}`}
      opened={sheet === 'withdraw'}
      onClose={close}
      what={`fish ${fish.tag}`}
      saving={withdrawal.saving}
      problem={withdrawal.problem}
      onSubmit={async (reason) => {
        const saved = await withdrawal.save({
          input: { id: fish.id, reason, revision: fish.revision },
        });
        if (saved !== null) void navigate('/fish');
      }}
    />
  );
}
