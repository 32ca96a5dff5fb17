import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { BROOD_OUTLOOK, type BroodLocus } from '../../api/carriers.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { FitResult } from '../../components/fit-result.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { ClassBars } from '../../drawings/index.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { otherChances } from '../../wording/list-ends.js';
import { chanceText, oddsText } from '../../wording/chances.js';
import { plural, span } from '../../wording/figures.js';
import { LocusCountForm } from './locus-count-form.js';
import type { ResultOf } from '../../api/graphql.js';

/** The brood as counted against what all other records lead to expect of its parents. */
export function BroodOutlookSection({ spawn }: { spawn: SpawnFacts }) {
  const read = useRead(BROOD_OUTLOOK, { spawnId: spawn.id });
  const [counting, setCounting] = useState(false);
  return (
    <Section
      title="What the brood says about its parents"
      actions={
        <Button size="xs" onClick={() => setCounting(true)}>
          Count by one locus
        </Button>
      }
    >
      <Shown read={read} what="what the brood says">
        {({ broodOutlook }) => (
          <>
            {broodOutlook.loci.length === 0 && broodOutlook.setAside.length === 0 && (
              <Empty>
                Not counted at any locus yet. Count whole fish by what they show, with the date:
                that says more about the parents than their own appearance.
              </Empty>
            )}
            {broodOutlook.loci.map((locus) => (
              <Locus key={locus.locusId} locus={locus} onDone={read.reload} />
            ))}
            {broodOutlook.setAside.length > 0 && <SetAsideCounts broodOutlook={broodOutlook} />}
          </>
        )}
      </Shown>
      <Sheet
        title={`Count spawn ${spawn.tag} by one locus`}
        opened={counting}
        onClose={() => setCounting(false)}
      >
        <LocusCountForm spawnId={spawn.id} onClose={() => setCounting(false)} />
      </Sheet>
    </Section>
  );
}

function SetAsideCounts({
  broodOutlook,
}: {
  broodOutlook: ResultOf<typeof BROOD_OUTLOOK>['broodOutlook'];
}) {
  return (
    <details className="lw-folded" open={broodOutlook.loci.length === 0}>
      <summary>{plural(broodOutlook.setAside.length, 'record')} not counted</summary>
      <ul>
        {broodOutlook.setAside.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </details>
  );
}

function Locus({ locus, onDone }: { locus: BroodLocus; onDone: () => void }) {
  const [best] = locus.pairs;
  return (
    <article className="lw-divided" aria-label={`${locus.name} in the brood`}>
      <h3>{locus.name}</h3>
      {locus.impossible !== null && (
        <p>
          {locus.impossible} <Link to="/contradictions">See which records clash</Link>
        </p>
      )}
      {locus.waiting !== null && (
        <WaitingComputation
          computation={locus.waiting}
          what={locus.name.toLowerCase()}
          onDone={onDone}
        />
      )}
      {locus.classes.length > 0 && <BroodBars locus={locus} />}
      {locus.classes.length > 0 && <p className="lw-quiet">{locus.founders}</p>}
      <WhyParents best={best} locus={locus} />
      {locus.pairs.length > 0 && (
        <p>
          {locus.verdict}
          {locus.fryToTell !== null &&
            ` About ${plural(locus.fryToTell, 'young', 'young')} scored would show which of these two is right: raise no more than there are homes for.`}
        </p>
      )}
      {locus.rivals.length > 0 && (
        <details className="lw-folded">
          <summary>Other explanations</summary>
          <RivalsTable locus={locus} />
        </details>
      )}
      {locus.heterogeneity !== null && <Together locus={locus} />}
    </article>
  );
}

function WhyParents({
  best,
  locus,
}: {
  best: BroodLocus['pairs'][number] | undefined;
  locus: BroodLocus;
}) {
  return (
    best !== undefined && (
      <Why
        about={`what the parents are at ${locus.name}`}
        figure={
          <>
            The parents are {best.sire} × {best.dam} with {chanceText(best.after)}
          </>
        }
      >
        <ParentsTable locus={locus} />
      </Why>
    )
  );
}

function BroodBars({ locus }: { locus: BroodLocus }) {
  return (
    <ClassBars
      broodSize={locus.total}
      title={`${locus.total} young counted, and what the other records led to expect`}
      classes={locus.classes.map((one) => ({
        id: one.phenotype,
        label: one.phenotype,
        fraction: chanceText(one.expectedShare),
        probability: one.expectedShare,
        observed: one.observed,
      }))}
      caption={`Expected before this brood was counted; 95 of 100 such broods would hold ${locus.classes
        .map((one) => `${span(String(one.countLow), String(one.countHigh))} ${one.phenotype}`)
        .join(', ')}.`}
    />
  );
}

const pairColumns: readonly Column<BroodLocus['pairs'][number]>[] = [
  {
    key: 'pair',
    title: 'Sire × dam',
    cell: (one) => (
      <span className="lw-symbol">
        {one.sire} × {one.dam}
      </span>
    ),
  },
  { key: 'ratio', title: 'Gives', cell: (one) => one.ratio },
  { key: 'before', title: 'Before', number: true, cell: (one) => chanceText(one.before) },
  { key: 'after', title: 'With it', number: true, cell: (one) => chanceText(one.after) },
];

function ParentsTable({ locus }: { locus: BroodLocus }) {
  const others = otherChances(locus.pairs.map((one) => one.after));
  return (
    <>
      <p>{locus.counted}</p>
      <DataTable
        caption={`Parents at ${locus.name}`}
        rows={locus.pairs}
        rowKey={(one) => `${one.sire} ${one.dam}`}
        columns={pairColumns}
      />
      {others !== null && <p className="lw-quiet">{others}</p>}
      {locus.fit !== null && (
        <>
          <h4>Compared with the likeliest parents</h4>
          <FitResult fit={locus.fit} />
        </>
      )}
    </>
  );
}

function RivalsTable({ locus }: { locus: BroodLocus }) {
  return (
    <DataTable
      caption={`Other explanations at ${locus.name}`}
      rows={locus.rivals}
      rowKey={(one) => one.name}
      columns={[
        { key: 'name', title: 'Explanation', cell: (one) => one.name },
        {
          key: 'odds',
          title: 'Compared with the best',
          cell: (one) => oddsText(one.timesLessLikely),
        },
        {
          key: 'p',
          title: 'Fit, p',
          number: true,
          cell: (one) => (one.pValue < 0.001 ? 'under 0.001' : one.pValue.toFixed(3)),
        },
      ]}
    />
  );
}

function Together({ locus }: { locus: BroodLocus }) {
  const all = locus.heterogeneity;
  if (all === null) return null;
  return (
    <>
      <h4>All counted broods of the pair</h4>
      <p>{all.verdict}</p>
      <DataTable
        caption={`Broods of the pair at ${locus.name}`}
        rows={all.broods}
        rowKey={(one) => one.spawnId}
        columns={[
          {
            key: 'spawn',
            title: 'Spawn',
            cell: (one) =>
              one.spawn === null ? '' : <Link to={`/spawns/${one.spawn.id}`}>{one.spawn.tag}</Link>,
          },
          ...all.classes.map((name, i) => ({
            key: name,
            title: name,
            number: true,
            cell: (one: (typeof all.broods)[number]) => one.counts[i] ?? 0,
          })),
          {
            key: 'p',
            title: `p under ${all.ratio}`,
            number: true,
            cell: (one) => (one.pValue < 0.001 ? 'under 0.001' : one.pValue.toFixed(3)),
          },
        ]}
      />
      <p className="lw-quiet">
        Differences between broods: G {all.g.toFixed(2)} with{' '}
        {plural(all.degreesOfFreedom, 'degree')} of freedom, p{' '}
        {all.pValue < 0.001 ? 'under 0.001' : all.pValue.toFixed(3)}.
      </p>
    </>
  );
}
