import { HAND_OVERS_DUE } from '../../api/hand-overs.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { HandOverCard } from '../../panels/hand-over/hand-over-card.js';
import { today } from '../../wording/figures.js';
import { offeredTogether } from '../../wording/hand-over-words.js';

/** Fish that were offered, that come back or are to be back today, and those in quarantine; nothing when there are none. */
export function HandOversDue() {
  const read = useRead(HAND_OVERS_DUE, { on: today() });
  const due = read.data?.handOversDue ?? [];
  if (due.length === 0) return null;
  return (
    <Section title="Fish from and to others" aside={due.length}>
      {offeredTogether(due).map(
        ([first, ...rest]) => first && <HandOverCard key={first.id} handOvers={[first, ...rest]} />,
      )}
    </Section>
  );
}
