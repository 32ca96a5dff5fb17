import { ammoniaLimits, guideReached, tapWaterCaution } from '@linewright/care';
import type { WaterFigures } from '../api/water.js';
import { Cautions } from '../components/notice.js';
import { Why } from '../components/why.js';
import { plainNumber, showTime } from '../wording/figures.js';
import { ammoniaUnitWord, milligrams, standingWord, trustWord } from '../wording/water-words.js';
import styles from './water-now.module.css';

/** The newest reading: what harms in it, where it stands, how long it is leaned on, and what to do. */
export function WaterNow({ reading, limit }: { reading: WaterFigures; limit: number }) {
  const { unionised, change, trust } = reading;
  return (
    <div>
      <div className={styles['now']}>
        {unionised === null ? (
          <span>{reading.notComputed}</span>
        ) : (
          <Unionised reading={reading} unionised={unionised} limit={limit} />
        )}
        <span className={styles[`standing-${reading.standing}`]}>
          {standingWord[reading.standing]}
          {unionised !== null && ` of ${milligrams(limit)}`}
        </span>
        <span className="lw-quiet">
          taken {showTime(reading.takenAt)}, {trustWord[trust.state]}
          {trust.state === 'OLD'
            ? ': measure again before you use it'
            : `, ${Math.ceil(trust.hoursLeft)} h left by your rule`}
        </span>
      </div>
      {change !== null && <Remedy change={change} />}
      <NitrogenGuides reading={reading} />
    </div>
  );
}

interface StepsProps {
  reading: WaterFigures;
  unionised: NonNullable<WaterFigures['unionised']>;
  limit: number;
}

function Unionised(of: StepsProps) {
  return (
    <Why
      about="this much un-ionised ammonia"
      figure={
        <>
          <strong>{milligrams(of.unionised.asNH3)}</strong> mg/L un-ionised ammonia (as NH3)
        </>
      }
    >
      <Steps {...of} />
    </Why>
  );
}

function Steps({ reading, unionised, limit }: StepsProps) {
  const unit = reading.ammoniaUnit === null ? '' : ammoniaUnitWord[reading.ammoniaUnit];
  const guide = ammoniaLimits.find((one) => one.value === limit);
  return (
    <>
      <p>
        {plainNumber(reading.totalAmmonia ?? 0)} mg/L {unit} is {milligrams(unionised.totalAsN)} as
        N. At {plainNumber(reading.celsius ?? 0, 1)} °C the pKa is 0.09018 + 2729.92 /{' '}
        {((reading.celsius ?? 0) + 273.15).toFixed(2)} = {unionised.pKa.toFixed(3)}; at pH{' '}
        {plainNumber(reading.pH ?? 0)} the share un-ionised is 1 / (1 + 10^(
        {unionised.pKa.toFixed(3)} − {plainNumber(reading.pH ?? 0)})) ={' '}
        {(100 * unionised.share).toFixed(2)} %. That is {milligrams(unionised.asN)} as N, or{' '}
        {milligrams(unionised.asNH3)} as NH3.
      </p>
      <p className="lw-quiet">
        Emerson et al. 1975, J Fish Res Board Can 32:2379-2383, for fresh water.
        {unionised.beyondTables &&
          ' Beyond 30 °C or outside pH 6 to 10 the equation was not checked by its authors: take the figure with care.'}
      </p>
      <p className="lw-quiet">
        Your limit is {milligrams(limit)} mg/L as NH3
        {guide === undefined ? '' : ` (${guide.name}: ${guide.source})`}. None was set for bettas.
      </p>
    </>
  );
}

function Remedy({ change }: { change: NonNullable<WaterFigures['change']> }) {
  return (
    <>
      {change.outcome !== 'NOT_NEEDED' && (
        <p>
          <strong>{change.remedy}</strong>
        </p>
      )}
      <Cautions of={change.cautions} />
    </>
  );
}

/** Nitrite and nitrate at their guides, with what to do. */
function NitrogenGuides({ reading }: { reading: WaterFigures }) {
  const reached = [
    guideReached('nitrite', reading.nitrite, reading.nitriteForm),
    guideReached('nitrate', reading.nitrate, reading.nitrateForm),
  ].flatMap((guide) => guide ?? []);
  if (reached.length === 0) return null;
  return (
    <>
      {reached.map((guide) => (
        <p key={guide.of}>
          <strong>
            {guide.of === 'nitrite' ? 'Nitrite' : 'Nitrate'} has reached its guide, {guide.value}{' '}
            mg/L.
          </strong>{' '}
          {guide.text} {guide.remedy}
        </p>
      ))}
      <Cautions
        of={reading.change?.cautions.includes(tapWaterCaution) === true ? [] : [tapWaterCaution]}
      />
    </>
  );
}
