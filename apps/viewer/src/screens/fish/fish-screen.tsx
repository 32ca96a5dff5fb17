import { Button } from '@mantine/core';
import { useContext, useState } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import { FISH_FACTS, WITHDRAW_FISH, type FishFacts } from '../../api/fish.js';
import { useRead } from '../../api/use-read.js';
import { DispositionMark, SexMark } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawnNotice, WithdrawRecord } from '../../components/withdraw-record.js';
import { NotSharedContext } from '../../session/not-shared.js';
import { MayChangeContext } from '../../session/may.js';
import { SessionContext } from '../../session/session-context.js';
import { KeptOnDevice } from '../../panels/kept-on-device.js';
import { CommentsSection } from '../../panels/comments-section.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { BestMatesSection } from './best-mates-section.js';
import { CarriersSection } from './carriers-section.js';
import { ClaimForm } from './claim-form.js';
import { CorrectFishForm } from './correct-fish-form.js';
import { DecideForm } from './decide-form.js';
import { FishFactsSection } from './fish-facts-section.js';
import { FishFamilySections } from './fish-family-sections.js';
import { FishHandOversSection } from './fish-hand-overs-section.js';
import { FishPedigreeSection } from './fish-pedigree-section.js';
import { FishPhotos } from './fish-photos.js';
import { GenotypesSection } from './genotypes-section.js';
import { InbreedingSourcesSection } from './inbreeding-sources-section.js';
import { PassesOnSection } from './passes-on-section.js';
import { PricesSection } from './prices-section.js';
import { ScoresSection } from './scores-section.js';
import { SeenSection } from './seen-section.js';
import { ShowsSection } from './shows-section.js';
import { SheetScoringsSection } from './sheet-scorings-section.js';

type OpenSheet = 'decide' | 'correct' | 'withdraw' | 'claim' | null;

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
  const { fish } = read.data;
  return (
    <MayChangeContext value={fish.mayChange}>
      <NotSharedContext value={fish.notShared}>
        <FishPage key={id} fish={fish} />
      </NotSharedContext>
    </MayChangeContext>
  );
}

function FishPage({ fish }: { fish: FishFacts }) {
  const [sheet, setSheet] = useState<OpenSheet>(null);
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
      links={
        <>
          <Link className="lw-link-button" to={`/fish/${fish.id}/life`}>
            Life
          </Link>
          <HandOverLinks fish={fish} onOpen={setSheet} />
        </>
      }
      actions={<FishActions fish={fish} onOpen={setSheet} />}
    >
      <WithdrawnNotice withdrawn={fish.withdrawn} />
      <FishSections fish={fish} />
      <FishSheets fish={fish} sheet={sheet} onClose={() => setSheet(null)} />
    </Screen>
  );
}

interface FishActionsProps {
  fish: FishFacts;
  onOpen: (sheet: OpenSheet) => void;
}

function FishActions({ fish, onOpen }: FishActionsProps) {
  return (
    <>
      <Button className="lw-primary" onClick={() => onOpen('decide')}>
        Decide
      </Button>
      <Link className="lw-link-button" to={`/print?fish=${fish.id}`}>
        Print label
      </Link>
      <Button onClick={() => onOpen('correct')}>Correct</Button>
      {fish.withdrawn === null && <Button onClick={() => onOpen('withdraw')}>Withdraw</Button>}
    </>
  );
}

/** Whether the record is that of whoever is signed in, or kept by them for the owner. */
function useIsOwn({ person }: FishFacts): boolean {
  const session = useContext(SessionContext);
  const apart = session?.role === 'PARTNER' || session?.role === 'KEEPER';
  return apart ? person.id === session?.person?.id : person.here;
}

/** Whoever keeps its record can hand it over; one of which somebody else recorded only the tag can be claimed. */
function HandOverLinks({ fish, onOpen }: FishActionsProps) {
  const own = useIsOwn(fish);
  const looking = useContext(SessionContext)?.looking === true;
  if (fish.withdrawn !== null || looking) return null;
  if (!own && fish.disposition === 'ELSEWHERE')
    return <Button onClick={() => onOpen('claim')}>This fish is mine</Button>;
  if (!own || ['DIED', 'CULLED', 'ELSEWHERE'].includes(fish.disposition)) return null;
  return (
    <Link className="lw-link-button" to={`/fish/${fish.id}/hand-over`}>
      Hand over
    </Link>
  );
}

function FishSections({ fish }: { fish: FishFacts }) {
  return (
    <>
      <div className="lw-columns">
        <FishFactsSection fish={fish} />
        <div>
          <ScoresSection fish={fish} />
          <SheetScoringsSection fish={fish} />
          <SeenSection fish={fish} />
          <GenotypesSection fish={fish} />
        </div>
      </div>
      <FishHandOversSection fishId={fish.id} />
      <ShowsSection fish={fish} />
      <PricesSection fish={fish} />
      <PassesOnSection fish={fish} />
      <CarriersSection fish={fish} />
      <BestMatesSection fish={fish} />
      <FishPhotos fish={fish} />
      <FishPedigreeSection fish={fish} />
      <InbreedingSourcesSection fish={fish} />
      <FishFamilySections fishId={fish.id} />
      <CommentsSection subject={{ fishId: fish.id }} of={`fish ${fish.tag}`} />
      <HistoryPanel recordKind="FISH" recordId={fish.id} />
    </>
  );
}

interface FishSheetsProps {
  fish: FishFacts;
  sheet: OpenSheet;
  onClose: () => void;
}

/** What can be done with the record, each over the screen. */
function FishSheets({ fish, sheet, onClose }: FishSheetsProps) {
  const navigate = useNavigate();
  return (
    <>
      <Sheet title={`Decide on ${fish.tag}`} opened={sheet === 'decide'} onClose={onClose}>
        <DecideForm fish={fish} onSaved={onClose} onCancel={onClose} />
      </Sheet>
      <Sheet title={`Correct ${fish.tag}`} opened={sheet === 'correct'} onClose={onClose}>
        <CorrectFishForm fish={fish} onSaved={onClose} onCancel={onClose} />
      </Sheet>
      <Sheet title={`Claim ${fish.tag}`} opened={sheet === 'claim'} onClose={onClose}>
        <ClaimForm fish={fish} onDone={onClose} />
      </Sheet>
      <WithdrawRecord
        mutation={WITHDRAW_FISH}
        record={fish}
        title={`Withdraw ${fish.tag}`}
        what={`fish ${fish.tag}`}
        opened={sheet === 'withdraw'}
        onClose={onClose}
        onWithdrawn={() => void navigate('/fish')}
      />
    </>
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
