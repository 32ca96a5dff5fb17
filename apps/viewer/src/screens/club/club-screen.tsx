import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { useSearchParams } from 'react-router';
import { CLUB, type Club, type ClubLine } from '../../api/club.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { ClubRequests } from '../../panels/club-requests.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { AskForm } from './ask-form.js';
import { FoundersHeld } from './founders-held.js';
import { KinshipOfLines } from './kinship-of-lines.js';
import { OutcrossLines } from './outcross-lines.js';
import { PooledFigures } from './pooled-figures.js';

/** What keepers on one server show each other, for a line that is chosen in the address. */
export function ClubScreen() {
  const [search, setSearch] = useSearchParams();
  const choices = useLineChoices();
  const lineId = search.get('line') ?? choices[0]?.value ?? null;
  const read = useRead(CLUB, { lineId });
  const [asking, setAsking] = useState<ClubLine | null>(null);
  return (
    <Screen
      title="Club"
      lead="Lines that keepers on this server show each other. No single fish of another is shown here."
    >
      {choices.length > 0 && (
        <NativeSelect
          label="For the line"
          description="The others stand in the order of their kinship with it."
          data={choices}
          value={lineId ?? ''}
          onChange={(event) => setSearch({ line: event.currentTarget.value }, { replace: true })}
        />
      )}
      <Shown read={read} what="the club">
        {({ club }) => <ClubSections club={club} lineId={lineId} onAsk={setAsking} />}
      </Shown>
      <ClubRequests title="Requests" />
      <PooledFigures />
      <Sheet
        title={asking === null ? 'Ask' : `Ask ${asking.keeper.name} about line ${asking.code}`}
        opened={asking !== null}
        onClose={() => setAsking(null)}
      >
        {asking !== null && <AskForm lineId={asking.id} onDone={() => setAsking(null)} />}
      </Sheet>
    </Screen>
  );
}

interface ClubSectionsProps {
  club: Club;
  lineId: string | null;
  onAsk: (line: ClubLine) => void;
}

function ClubSections({ club, lineId, onAsk }: ClubSectionsProps) {
  const others = club.lines.some(({ id }) => id !== lineId);
  if (!others)
    return (
      <Empty>
        Nobody shows a line to the club yet. Whoever keeps a line ticks “Shown to the club” on its
        page; the name, the keeper, how many fish are in use and its looks are shown then, to
        everybody who signs in here.
      </Empty>
    );
  return (
    <>
      <OutcrossLines club={club} lineId={lineId} onAsk={onAsk} />
      <KinshipOfLines lines={club.lines} />
      <FoundersHeld club={club} />
    </>
  );
}
