import type { FishCondition, PlannedBrood } from '../../api/pairings.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { ageText, percent, plural } from '../../wording/figures.js';

interface Row {
  readonly name: string;
  readonly sire: string;
  readonly dam: string;
}

/** What the pair finds both fish in, and what each keeps for its own line. */
export function ConditionSection({ brood }: { brood: PlannedBrood }) {
  const { sire, dam, sireCondition, damCondition } = brood;
  return (
    <Section title="Both fish now">
      <DataTable
        caption="Both fish now"
        rows={conditionRows(sireCondition, damCondition)}
        rowKey={({ name }) => name}
        columns={[
          { key: 'name', title: '', cell: ({ name }) => name },
          { key: 'sire', title: sire.tag, cell: (row) => row.sire },
          { key: 'dam', title: dam.tag, cell: (row) => row.dam },
        ]}
      />
      <p className="lw-quiet">
        A fish with few relatives in its line keeps more of the line’s variety than others: if it is
        lost before it has young there, the line becomes closer.
      </p>
    </Section>
  );
}

const NO_PLACE = 'of no line, not in use, or alone in its line';

export function conditionRows(sire: FishCondition, dam: FishCondition): Row[] {
  const row = (name: string, tell: (fish: FishCondition) => string): Row => ({
    name,
    sire: tell(sire),
    dam: tell(dam),
  });
  return [
    row('Here and alive', ({ isHere }) => (isHere ? 'yes' : 'no')),
    row('Age', ({ ageDays }) => (ageDays === null ? 'not recorded' : ageText(ageDays))),
    row('Last spawn', ({ restDays }) =>
      restDays === null ? 'none on record' : `${plural(restDays, 'day')} ago`,
    ),
    row('Spawns so far', ({ spawns, failures }) =>
      failures === 0 ? String(spawns) : `${spawns}, and ${failures} failed`,
    ),
    row('Relatives in its line', ({ place }) =>
      place === null
        ? NO_PLACE
        : `coancestry ${percent(place.meanCoancestry)}, place ${place.place} of ${place.of} from the least related`,
    ),
    row('The line without it', ({ place }) =>
      place === null ? NO_PLACE : riseWords(place.riseWithout),
    ),
  ];
}

const riseWords = (rise: number): string =>
  Math.abs(rise) < 0.00005
    ? 'as close as before'
    : `mean coancestry ${percent(Math.abs(rise))} ${rise > 0 ? 'higher' : 'lower'}`;
