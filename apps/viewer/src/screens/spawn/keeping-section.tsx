import { Link } from 'react-router';
import { BROOD_KEEPING, type BroodKeeping, type YoungToKeep } from '../../api/keeping.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { LastCarrier } from '../../components/last-carrier.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { YoungWorths } from '../../drawings/index.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { plainNumber, plural } from '../../wording/figures.js';
import {
  adviceText,
  alleleName,
  allelesTold,
  becauseText,
  carriesBriefly,
  keepingMeaning,
  keepText,
  keptText,
  LAST_CARRIER_MEANING,
} from '../../wording/keeping-words.js';
import { worthGroups } from '../../wording/young-worth-groups.js';
import { worthOf } from '../../wording/worth-words.js';

/** Whom of the brood to keep: how many and why, the picture, each young. */
export function KeepingSection({ spawnId }: { spawnId: string }) {
  const read = useRead(BROOD_KEEPING, { spawnId });
  return (
    <Section title="Whom to keep">
      <Shown read={read} what="whom to keep">
        {({ broodKeeping }) => <Keeping keeping={broodKeeping} onDone={read.reload} />}
      </Shown>
    </Section>
  );
}

function Keeping({ keeping, onDone }: { keeping: BroodKeeping; onDone: () => void }) {
  const { problem, waiting, number } = keeping;
  const young = keeping.young.edges.map(({ node }) => node);
  return (
    <>
      {number !== null && <HowMany keeping={keeping} number={number} />}
      {waiting !== null && (
        <WaitingComputation computation={waiting} what="whom to keep" onDone={onDone} />
      )}
      {waiting === null && problem !== null && <Empty>{problem}</Empty>}
      {young.length > 0 && <Young keeping={keeping} young={young} />}
    </>
  );
}

function HowMany({
  keeping,
  number,
}: {
  keeping: BroodKeeping;
  number: NonNullable<BroodKeeping['number']>;
}) {
  return (
    <Why about="how many to keep" figure={<strong>{keepText(number)}.</strong>}>
      <p>{becauseText(number)}</p>
      {number.roundId !== null && (
        <p>
          <Link to={`/rounds/${number.roundId}`}>See the round</Link>
        </p>
      )}
      {keeping.kinshipWithLine !== null && (
        <p>
          Full sibs are all related to the line alike: mean kinship{' '}
          {plainNumber(keeping.kinshipWithLine, 3)}. So kinship tells nothing between them, only
          between broods.
        </p>
      )}
    </Why>
  );
}

function Young({ keeping, young }: { keeping: BroodKeeping; young: readonly YoungToKeep[] }) {
  const { totalCount } = keeping.young;
  return (
    <>
      <p>{keptText(keeping)}</p>
      {!keeping.hasAims && <NothingAsked lineId={keeping.lineId} />}
      <LastCarriers keeping={keeping} young={young} />
      {keeping.hasAims && (
        <YoungWorths
          title="What each young is worth to the line"
          groups={worthGroups(young, keeping.number)}
          sameFigures="The table below has the same figures."
        />
      )}
      {young.length < totalCount && (
        <p className="lw-words">
          The {young.length} of highest worth are shown, of {plural(totalCount, 'young', 'young')}.
        </p>
      )}
      <YoungTable keeping={keeping} young={young} />
      <Meaning keeping={keeping} />
    </>
  );
}

function NothingAsked({ lineId }: { lineId: string | null }) {
  return (
    <p className="lw-words">
      Nothing is worth points to this line yet, so no young is worth more than another.{' '}
      {lineId !== null && <Link to={`/lines/${lineId}/purpose`}>Say what the line is for</Link>}
    </p>
  );
}

function LastCarriers({
  keeping,
  young,
}: {
  keeping: BroodKeeping;
  young: readonly YoungToKeep[];
}) {
  return young.map((one) => (
    <LastCarrier key={one.fish.id} young={one} alleles={keeping.alleles} />
  ));
}

function YoungTable({ keeping, young }: { keeping: BroodKeeping; young: readonly YoungToKeep[] }) {
  return (
    <DataTable
      caption="Young of this brood by what they are worth to the line"
      rows={young}
      rowKey={({ fish }) => fish.id}
      low
      columns={[
        {
          key: 'tag',
          title: 'Tag',
          cell: (one) => (
            <>
              <FishLink fish={one.fish} />
              <OnPhone one={one} alleles={keeping.alleles} />
            </>
          ),
        },
        {
          key: 'sex',
          title: 'Sex',
          wideOnly: true,
          cell: ({ fish }) => <SexMark sex={fish.sex} />,
        },
        {
          key: 'worth',
          title: 'Points',
          number: true,
          cell: ({ worth, standardError }) => worthOf(worth, standardError),
        },
        {
          key: 'place',
          title: 'Place in its sex',
          number: true,
          wideOnly: true,
          cell: ({ place, of }) => `${place} of ${of}`,
        },
        {
          key: 'advice',
          title: 'What speaks for it',
          wideOnly: true,
          cell: ({ advice }) => adviceText[advice],
        },
        {
          key: 'alleles',
          title: 'May carry',
          wideOnly: true,
          cell: (one) => mayCarry(one, keeping.alleles),
        },
        {
          key: 'now',
          title: 'Decision',
          wideOnly: true,
          cell: ({ fish }) => <DispositionMark disposition={fish.disposition} />,
        },
      ]}
    />
  );
}

type Alleles = BroodKeeping['alleles'];

const mayCarry = (one: YoungToKeep, alleles: Alleles): string =>
  allelesTold(one, alleles).map(carriesBriefly).join('; ');

/** Below the tag what stands in columns of its own where there is room. */
function OnPhone({ one, alleles }: { one: YoungToKeep; alleles: Alleles }) {
  const { place, of, advice, fish } = one;
  const carried = mayCarry(one, alleles);
  return (
    <div className="lw-phone">
      <div>{adviceText[advice]}</div>
      <div className="lw-quiet">
        place {place} of {of} in its sex
      </div>
      {carried !== '' && <div className="lw-quiet">may carry {carried}</div>}
      <DispositionMark disposition={fish.disposition} />
    </div>
  );
}

function Meaning({ keeping }: { keeping: BroodKeeping }) {
  const { alleles, leftOut, notCounted, living } = keeping;
  return (
    <details className="lw-folded">
      <summary>How this is worked out</summary>
      <p>{keepingMeaning(keeping)}</p>
      {alleles.map((allele) => (
        <p key={`${allele.locusId} ${allele.alleleId}`}>
          {alleleName(allele)}: about {plainNumber(allele.carriers, 1)} of {living} living fish of
          the line are expected to carry it.
          {!allele.lastKnown &&
            ' Who is the last carrier cannot be told: the pedigree is too tangled for an exact answer.'}
        </p>
      ))}
      {alleles.length > 0 && <p>{LAST_CARRIER_MEANING}</p>}
      {[
        ...leftOut,
        ...notCounted.map(({ trait, reason }) => `${trait.name} is not counted: ${reason}`),
      ].map((text) => (
        <p key={text}>{text}</p>
      ))}
    </details>
  );
}
