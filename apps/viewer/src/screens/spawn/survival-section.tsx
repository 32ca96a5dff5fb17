import { NativeSelect, Checkbox } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { SPAWN_SURVIVAL, type SpawnSurvival, type SurvivalFigures } from '../../api/survival.js';
import { useRead } from '../../api/use-read.js';
import { Caution } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { SurvivalCurve } from '../../drawings/index.js';
import { percent, plural, span } from '../../wording/figures.js';
import { startWord, type SurvivalStart } from '../../wording/water-words.js';

type Reading = 'allLosses' | 'deathsOnly';

/** Share alive by age with its interval, against the person's own past spawns. */
export function SurvivalSection({ spawnId, tag }: { spawnId: string; tag: string }) {
  const [from, setFrom] = useState<SurvivalStart | null>(null);
  const [sameLine, setSameLine] = useState(false);
  const [reading, setReading] = useState<Reading>('allLosses');
  const read = useRead(SPAWN_SURVIVAL, { id: spawnId, from, sameLine });
  return (
    <Section title="Survival">
      <Shown read={read} what="the survival of the brood">
        {({ spawnSurvival: survival }) =>
          survival.allLosses === null || survival.deathsOnly === null ? (
            <Empty>
              No curve yet: count the eggs, the fry hatched or the fry swimming free, and count
              again later.
            </Empty>
          ) : (
            <>
              <SurvivalChoices
                survival={survival}
                setFrom={setFrom}
                reading={reading}
                setReading={setReading}
                sameLine={sameLine}
                setSameLine={setSameLine}
              />
              <Curve
                survival={survival}
                figures={survival[reading] ?? survival.allLosses}
                reading={reading}
                tag={tag}
              />
            </>
          )
        }
      </Shown>
    </Section>
  );
}

interface CurveProps {
  survival: SpawnSurvival;
  figures: SurvivalFigures;
  reading: Reading;
  tag: string;
}

interface SurvivalChoicesProps {
  survival: SpawnSurvival;
  setFrom: Dispatch<SetStateAction<'EGGS' | 'FREE_SWIMMING' | 'HATCHED' | null>>;
  reading: string;
  setReading: Dispatch<SetStateAction<Reading>>;
  sameLine: boolean;
  setSameLine: Dispatch<SetStateAction<boolean>>;
}

function SurvivalChoices({
  survival,
  setFrom,
  reading,
  setReading,
  sameLine,
  setSameLine,
}: SurvivalChoicesProps) {
  return (
    <div className="lw-filter">
      <NativeSelect
        label="Start from"
        value={survival.from}
        onChange={(event) => setFrom(event.currentTarget.value as SurvivalStart)}
        data={survival.possible.map((one) => ({ value: one, label: startWord[one] }))}
      />
      <NativeSelect
        label="Culls count as"
        value={reading}
        onChange={(event) => setReading(event.currentTarget.value as Reading)}
        data={[
          { value: 'allLosses', label: 'losses' },
          { value: 'deathsOnly', label: 'not losses' },
        ]}
      />
      <Checkbox
        label="Only past spawns of this line"
        checked={sameLine}
        onChange={(event) => setSameLine(event.currentTarget.checked)}
        className="lw-middle"
      />
    </div>
  );
}

function Curve({ survival, figures, reading, tag }: CurveProps) {
  const last = figures.steps.findLast((step) => step.deaths > 0) ?? figures.steps.at(-1);
  return (
    <>
      {survival.warnings.map((warning) => (
        <Caution key={`${warning.code} ${warning.day}`}>
          Counts do not add up. {warning.message}
        </Caution>
      ))}
      {last !== undefined && (
        <Why
          about={`the survival of spawn ${tag}`}
          figure={`Survival ${percent(last.survival, 0)} at day ${last.day}, ${reading === 'allLosses' ? 'culls counted as losses' : 'culls not counted as losses'}`}
        >
          <WhyCurve survival={survival} reading={reading} />
        </Why>
      )}
      <Place survival={survival} figures={figures} />
      {reading === 'deathsOnly' && (
        <p className="lw-quiet">
          Culls do not count as losses here. The curve shows deaths alone only if the culled fish
          would have died as often as the rest; where weak fish are culled, it looks better than the
          brood was.
        </p>
      )}
      <SurvivalCurve
        title={`Share of ${startWord[survival.from]} still alive in spawn ${tag}${reading === 'deathsOnly' ? ', culls not counted as losses' : ''}`}
        steps={figures.steps}
        lastDay={survival.lastDay ?? 0}
        pooled={figures.pooled}
        band={figures.band}
        unknown={survival.days.flatMap(({ day, since, missing }) =>
          missing > 0 && since !== null ? [{ from: since, to: day }] : [],
        )}
      />
    </>
  );
}

function Place({ survival, figures }: { survival: SpawnSurvival; figures: SurvivalFigures }) {
  const { comparison } = figures;
  if (comparison === null) {
    return (
      <p className="lw-quiet">
        {survival.pastSpawns === 0
          ? 'No earlier spawn of yours has counts to compare with.'
          : 'Two earlier spawns with counts are needed to compare with.'}
      </p>
    );
  }
  const where = {
    BELOW: 'Below what your past spawns did',
    WITHIN: 'Within what your past spawns did',
    ABOVE: 'Above what your past spawns did',
  }[comparison.place];
  return (
    <p>
      <strong>{where}</strong>: {percent(comparison.here, 0)} on day {comparison.day}, and{' '}
      {span(percent(comparison.band.low, 0), percent(comparison.band.high, 0))} in{' '}
      {plural(comparison.band.spawns, 'past spawn')} (10th to 90th percentile).
    </p>
  );
}

function WhyCurve({ survival, reading }: { survival: SpawnSurvival; reading: Reading }) {
  const sum = (field: 'died' | 'missing' | 'culled' | 'placed') =>
    survival.days.reduce((total, day) => total + day[field], 0);
  return (
    <>
      <p>
        Of {plural(survival.started ?? 0, 'fish', 'fish')} ({startWord[survival.from]},{' '}
        {survival.startedOn}) {sum('died')} were recorded as died, {sum('missing')} were missing at
        a count, {sum('culled')} culled and {sum('placed')} placed; {survival.left} are left. Each
        step multiplies by the share of the fish followed until then that stayed alive
        {reading === 'allLosses'
          ? '; culls count as losses'
          : '; fish culled count as moved out alive'}
        , and fish placed count as moved out alive.
      </p>
      <p className="lw-quiet">
        Kaplan and Meier 1958; interval by Greenwood&apos;s variance on the log-log scale. It
        assumes that fish die independently. Fry of one tank do not, so compare with the past spawns
        rather than with the interval. Past: {plural(survival.pastSpawns, 'spawn')} with{' '}
        {plural(survival.pastFish, 'fish', 'fish')} at the start
        {survival.pastSpawnsPassedOver > 0 &&
          `; ${plural(survival.pastSpawnsPassedOver, 'older spawn was', 'older spawns were')} not looked at, only the newest 200`}
        . Followed to day 180 at most.
      </p>
    </>
  );
}
