import { Switch } from '@mantine/core';
import { useState } from 'react';
import { isGoing } from '../../api/carriers.js';
import { LINE_ROUTES, type LineRoute, type LineRoutes } from '../../api/line-routes.js';
import { useReadAgain } from '../../api/use-read-again.js';
import { useRead } from '../../api/use-read.js';
import { Caution } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { RouteChances } from '../../drawings/index.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { plural } from '../../wording/figures.js';
import { routeName, timeText } from '../../wording/route-words.js';
import type { Asked } from './asked.js';
import { AdoptRouteSheet } from './adopt-route-sheet.js';
import { LeftOut } from './left-out.js';
import styles from './line-routes.module.css';
import { NumberChoice } from './number-choice.js';
import { RouteDetails } from './route-details.js';

const AFTER_MS = 1_000;
/** Until there is anything to look at. */
const AFTER_MS_AT_FIRST = 300;
const DRAWN = 8;

/** Routes to what the line is for, the best so far while they are searched. */
export function RoutesSection({ lineId }: { lineId: string }) {
  const [asked, setAsked] = useState<Asked>({
    share: 0.9,
    generations: 5,
    fryPerBrood: 30,
    withOutcross: true,
  });
  const [adopting, setAdopting] = useState<LineRoute | null>(null);
  const read = useRead(LINE_ROUTES, { input: { lineId, ...asked } });
  const waiting = read.data?.lineRoutes.waiting ?? null;
  const going = waiting !== null && isGoing(waiting);
  const any = (read.data?.lineRoutes.routes.length ?? 0) > 0;
  useReadAgain(read, { going, afterMs: any ? AFTER_MS : AFTER_MS_AT_FIRST });
  return (
    <Section title="Routes to what the line is for">
      <AskedFields
        asked={asked}
        days={read.data?.lineRoutes.daysPerGeneration ?? null}
        onChange={setAsked}
      />
      <Shown read={read} what="the routes">
        {({ lineRoutes }) => (
          <Found routes={lineRoutes} onDone={read.reload} onAdopt={setAdopting} />
        )}
      </Shown>
      {adopting !== null && (
        <AdoptRouteSheet
          lineId={lineId}
          asked={asked}
          route={adopting}
          purposeVersion={read.data?.lineRoutes.purposeVersion ?? 0}
          onClose={() => setAdopting(null)}
        />
      )}
    </Section>
  );
}

interface AskedFieldsProps {
  asked: Asked;
  /** Of one generation, once they are known. */
  days: number | null;
  onChange: (asked: Asked) => void;
}

function AskedFields({ asked, days, onChange }: AskedFieldsProps) {
  return (
    <div className={styles['asked']}>
      <NumberChoice
        label="Young of a brood that have to pass"
        value={asked.share}
        of={[0.1, 0.25, 0.5, 0.75, 0.9]}
        text={(share) => `${Math.round(share * 100)} of 100`}
        onChange={(share) => onChange({ ...asked, share })}
      />
      <NumberChoice
        label="Time at most"
        value={asked.generations}
        of={[1, 2, 3, 4, 5, 6, 7, 8]}
        text={(generations) => timeText(generations, days)}
        onChange={(generations) => onChange({ ...asked, generations })}
      />
      <NumberChoice
        label="Young raised of each brood"
        value={asked.fryPerBrood}
        of={[10, 20, 30, 50, 80, 120]}
        onChange={(fryPerBrood) => onChange({ ...asked, fryPerBrood })}
      />
      <Switch
        label="Look at crosses to other lines, too"
        checked={asked.withOutcross}
        onChange={(event) => onChange({ ...asked, withOutcross: event.currentTarget.checked })}
      />
    </div>
  );
}

interface FoundProps {
  routes: LineRoutes;
  onDone: () => void;
  onAdopt: (route: LineRoute) => void;
}

function Found({ routes: found, onDone, onAdopt }: FoundProps) {
  const { routes, whyNone, waiting, forNow } = found;
  const isForNow = forNow.length > 0;
  return (
    <>
      {waiting !== null && (
        <WaitingComputation
          key={waiting.id}
          computation={waiting}
          what={isForNow ? 'what the fish pass on, then the routes' : 'the routes'}
          doing={isForNow ? 'Working out' : 'Searching'}
          whileGoing={
            routes.length > 0
              ? 'The best so far stand below.'
              : 'The first ones come as soon as each was tried a few times.'
          }
          stoppedText="The search was stopped. What it had found stands below."
          onDone={onDone}
        />
      )}
      {whyNone !== null && <Empty>{whyNone}</Empty>}
      {isForNow && (
        <Caution>
          {forNow.join(' ')} The routes are searched again when that is done; until then none can be
          adopted.
        </Caution>
      )}
      {routes.length > 0 && (
        <>
          <RouteChances
            title="Chance of each route"
            sameFigures="The list below has the same figures."
            routes={routes.slice(0, DRAWN).map((route) => ({
              key: route.key,
              name: routeName(route),
              ...{ chance: route.chance, low: route.low, high: route.high },
            }))}
          />
          <ol className={styles['routes']}>
            {routes.map((route) => (
              <li key={route.key}>
                <RouteDetails route={route} onAdopt={isForNow ? null : () => onAdopt(route)} />
              </li>
            ))}
          </ol>
          <TriedText found={found} />
        </>
      )}
      <LeftOut sentences={found.leftOut} />
    </>
  );
}

/** What was looked at, and what was not. */
function TriedText({ found }: { found: LineRoutes }) {
  const { pairs, pairsTried, outcrosses, outcrossesTried, overCeiling } = found;
  return (
    <p className="lw-quiet">
      Routes were made of {pairsTried} of {plural(pairs, 'pair')} of the line and of{' '}
      {outcrossesTried} of {plural(outcrosses, 'cross', 'crosses')} to other lines: those whose
      grandchildren did best in a few quick simulations.{' '}
      {overCeiling > 0 && `${plural(overCeiling, 'pair')} would pass the ceiling on F at once. `}
      Months are worked out with {found.daysPerGeneration} days a generation. {found.daysBasis}
    </p>
  );
}
