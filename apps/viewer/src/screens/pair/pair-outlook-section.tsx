import { useState } from 'react';
import { Link } from 'react-router';
import { PAIR_OUTLOOK, type PairLocus } from '../../api/carriers.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { SeverityMark } from '../../components/severity-mark.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { BroodSizeField, broodSizeIn } from '../../panels/brood-size-field.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { span } from '../../wording/figures.js';
import { otherChances } from '../../wording/list-ends.js';
import { chanceText } from '../../wording/chances.js';
import type { Column } from '../../components/data-table.js';
import type { ResultOf } from '../../api/graphql.js';

interface PairOutlookSectionProps {
  sire: { id: string; tag: string };
  dam: { id: string; tag: string };
}

/** Classes expected of the pair, over all that the two may carry together by every record of them and their kin. */
export function PairOutlookSection({ sire, dam }: PairOutlookSectionProps) {
  const [typed, setTyped] = useState('100');
  const broodSize = broodSizeIn(typed);
  const read = useRead(
    PAIR_OUTLOOK,
    { sireId: sire.id, damId: dam.id, broodSize: broodSize ?? 100 },
    { pause: broodSize === null },
  );
  return (
    <Section title="Expected classes">
      <p className="lw-words lw-quiet">
        By what both fish may carry together, from every record of them and of their relatives.
        Where they are related, what one of them carries says something about the other.
      </p>
      <BroodSizeField label="Young scored" typed={typed} onTyped={setTyped} />
      <Shown read={read} what="the outlook">
        {({ pairOutlook }) => (
          <>
            <OutlookWarnings pairOutlook={pairOutlook} />
            {pairOutlook.loci.length === 0 && (
              <Empty>
                No record of <Link to={`/fish/${sire.id}`}>{sire.tag}</Link> or{' '}
                <Link to={`/fish/${dam.id}`}>{dam.tag}</Link> or their relatives says anything about
                a locus that can be worked out. Record their appearance.
              </Empty>
            )}
            {pairOutlook.loci.map((locus) => (
              <Locus key={locus.locusId} locus={locus} young={typed} onDone={read.reload} />
            ))}
            {pairOutlook.leftOut.length > 0 && (
              <p className="lw-quiet">
                Not worked out: {pairOutlook.leftOut.map((one) => one.reason).join(' ')}
              </p>
            )}
          </>
        )}
      </Shown>
    </Section>
  );
}

function OutlookWarnings({
  pairOutlook,
}: {
  pairOutlook: ResultOf<typeof PAIR_OUTLOOK>['pairOutlook'];
}) {
  return (
    pairOutlook.warnings.length > 0 && (
      <>
        <h3>What could go wrong</h3>
        <ul className="lw-judged lw-warnings" aria-label="What could go wrong">
          {pairOutlook.warnings.map((one) => (
            <li key={one.title}>
              <SeverityMark severity={one.severity} /> <strong>{one.title}.</strong> {one.text}
              <span className="lw-small">Basis: {one.basis}</span>
            </li>
          ))}
        </ul>
      </>
    )
  );
}

function Locus({ locus, young, onDone }: { locus: PairLocus; young: string; onDone: () => void }) {
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
      {locus.classes.length > 0 && (
        <>
          <DataTable
            caption={`Classes at ${locus.name}`}
            rows={locus.classes}
            rowKey={(one) => one.phenotype}
            columns={outlookColumns(young)}
          />
          <p className="lw-quiet">{locus.founders}</p>
          {locus.rareLeftOut !== null && <p className="lw-quiet">{locus.rareLeftOut}</p>}
          <p className="lw-quiet">
            Every fry raised needs a home: a rare class may not be worth it.
          </p>
          {locus.lostShare > 0.0005 && (
            <p>
              {chanceText(locus.lostShare)} of the eggs are expected to be lost to lethal genotypes.
            </p>
          )}
          <WhyBrood locus={locus} />
        </>
      )}
    </article>
  );
}

function WhyBrood({ locus }: { locus: PairLocus }) {
  return (
    <Why
      about={`the brood at ${locus.name}`}
      figure={
        <>
          Likeliest pair {locus.pairs[0]?.sire} × {locus.pairs[0]?.dam},{' '}
          {chanceText(locus.pairs[0]?.probability ?? 0)}
        </>
      }
    >
      <PairReasons locus={locus} />
    </Why>
  );
}

type OutlookClass = PairLocus['classes'][number];

const countSpan = ({ countLow, countHigh }: OutlookClass): string =>
  span(String(countLow), String(countHigh));

/** Below the class what stands in columns of its own where there is room. */
function OnPhone({ one, young }: { one: OutlookClass; young: string }) {
  return (
    <div className="lw-phone lw-quiet">
      <div>
        {countSpan(one)} of {young}
      </div>
      <div>this pair can give it: {chanceText(one.canGive)}</div>
      <div>at least one: {chanceText(one.anyInBrood)}</div>
    </div>
  );
}

function outlookColumns(young: string): readonly Column<OutlookClass>[] {
  return [
    {
      key: 'class',
      title: 'Class',
      cell: (one) => (
        <>
          {one.phenotype}
          <OnPhone one={one} young={young} />
        </>
      ),
    },
    {
      key: 'share',
      title: 'Expected',
      number: true,
      cell: (one) => (
        <>
          {chanceText(one.probability)}
          {one.highestShare - one.lowestShare > 0.0005 && (
            <span className="lw-small">
              {span(chanceText(one.lowestShare), chanceText(one.highestShare))}
            </span>
          )}
        </>
      ),
    },
    {
      key: 'count',
      title: `Of ${young}`,
      number: true,
      unbroken: true,
      wideOnly: true,
      cell: countSpan,
    },
    {
      key: 'can',
      title: 'This pair can give it',
      number: true,
      wideOnly: true,
      cell: (one) => chanceText(one.canGive),
    },
    {
      key: 'any',
      title: 'At least one',
      number: true,
      wideOnly: true,
      cell: (one) => chanceText(one.anyInBrood),
    },
    {
      key: 'fry',
      title: 'Fry to see one (95 % sure)',
      number: true,
      cell: (one) => one.fryForOne95 ?? 'out of reach',
    },
  ];
}

function PairReasons({ locus }: { locus: PairLocus }) {
  const listed = locus.pairs.filter((one) => one.probability >= 0.0005);
  const others = otherChances(listed.map((one) => one.probability));
  return (
    <>
      <DataTable
        caption={`What the pair may be at ${locus.name}`}
        rows={listed}
        rowKey={(one) => `${one.sire} ${one.dam}`}
        columns={pairColumns()}
      />
      {others !== null && <p className="lw-quiet">{others}</p>}
      {locus.risks.length > 0 && (
        <ul>
          {locus.risks.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
      <ul className="lw-quiet">
        {locus.assumed.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <p className="lw-quiet">
        The range is what 95 of 100 such broods would hold. {locus.method ?? ''} The page of each
        fish shows which records say so.
      </p>
    </>
  );
}

function pairColumns(): readonly Column<PairLocus['pairs'][number]>[] {
  return [
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
    {
      key: 'chance',
      title: 'Chance',
      number: true,
      cell: (one) => chanceText(one.probability),
    },
  ];
}
