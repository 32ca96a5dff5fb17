import { Checkbox } from '@mantine/core';
import { Link } from 'react-router';
import { CLUB_CONSENT, SET_CLUB_CONSENT } from '../../api/club.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';

/** What the club may know of a line of one's own; each tick holds at once. Nothing is drawn of somebody else's line. */
export function ClubSection({ lineId }: { lineId: string }) {
  const said = useRead(CLUB_CONSENT, { lineId }).data?.clubConsent ?? null;
  const { save, saving, problem } = useSave(SET_CLUB_CONSENT);
  if (said === null) return null;
  const { shown, counted } = said;
  const set = (changes: { shown?: boolean; counted?: boolean }) =>
    void save({ input: { lineId, shown, counted, ...changes } });
  return (
    <Section title="Club">
      <div className="lw-form">
        <Checkbox
          label="Shown to the club"
          description="Everybody who signs in here sees its name, yours, how many fish are in use, looks of three fish or more, and its kinship with other lines. No single fish."
          checked={shown}
          disabled={saving}
          onChange={(event) => set({ shown: event.currentTarget.checked })}
        />
        <Checkbox
          label="Counted in the club’s figures"
          description="Its counted broods and scores go into what inbreeding costs and how much is inherited, over three keepers or more. Its name is not told there."
          checked={counted}
          disabled={saving}
          onChange={(event) => set({ counted: event.currentTarget.checked })}
        />
      </div>
      <ProblemNotice problem={problem} />
      <p>
        <Link to={`/club?line=${lineId}`}>Look at the club for this line</Link>
      </p>
    </Section>
  );
}
