import type { FishFacts } from '../../api/fish.js';
import { INBREEDING_SOURCES, type InbreedingSources } from '../../api/inbreeding-sources.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { restWords } from '../../wording/list-ends.js';
import { percent, plainNumber } from '../../wording/figures.js';
import { inbreedingText, leastPercent } from '../../wording/inbreeding-words.js';
import type { Column } from '../../components/data-table.js';

/** Founders behind this F in a fish, in which old fish that arose, and how long ago. */
export function InbreedingSourcesSection({ fish }: { fish: FishFacts }) {
  const inbred = fish.inbreedingCoefficient > 0;
  const read = useRead(INBREEDING_SOURCES, { id: fish.id }, { pause: !inbred });
  if (!inbred) return null;
  return (
    <Section title="Where this F comes from">
      <Shown read={read} what="the sources">
        {(data) => <Sources sources={data.fish.inbreedingSources} fish={fish} />}
      </Shown>
    </Section>
  );
}

interface SourcesProps {
  sources: InbreedingSources;
  fish: FishFacts;
}

function Sources({ sources, fish }: SourcesProps) {
  return (
    <>
      <div className="lw-two-up">
        <ByFounder sources={sources} fish={fish} />
        <ByOrigin sources={sources} />
        <ByAge sources={sources} fish={fish} />
      </div>
    </>
  );
}

function ByFounder({ sources, fish }: SourcesProps) {
  const { byFounder } = sources;
  return (
    <div>
      <h3>Founders behind this F</h3>
      <Why
        about="Partial inbreeding by founder"
        figure={`They add up to F ${inbreedingText(fish)}`}
      >
        <p>
          The chance that both genes of the fish are copies of one gene of that founder. Source:
          Lacy RC, Alaks G & Walsh A (1996) Evolution 50:2187-2200, definition from memory.
        </p>
      </Why>
      {byFounder === null ? (
        <p>The fish has too many recorded ancestors to divide its F by founder here.</p>
      ) : (
        <DataTable
          caption="F by founder"
          low
          rows={byFounder}
          rowKey={({ fish, unknownParent }) => `${fish.id} ${String(unknownParent)}`}
          columns={founderColumns()}
        />
      )}
    </div>
  );
}

function founderColumns(): readonly Column<NonNullable<InbreedingSources['byFounder']>[number]>[] {
  return [
    {
      key: 'founder',
      title: 'Founder',
      cell: ({ fish, unknownParent }) => (
        <>
          {unknownParent && 'unknown parent of '}
          <FishLink fish={fish} />
        </>
      ),
    },
    {
      key: 'adds',
      title: 'Part of F',
      number: true,
      cell: ({ contribution }) => percent(contribution, 3),
    },
  ];
}

function ByOrigin({ sources }: { sources: InbreedingSources }) {
  const { byOrigin, originCount, meanGenerations, complete, coefficient } = sources;
  const rest = restWords(byOrigin, originCount, coefficient, 'ancestors');
  return (
    <div>
      <h3>Ancestors in which this F arose</h3>
      <Why
        about="Age of this F"
        figure={`On average ${plainNumber(meanGenerations ?? 0, 1)} generations back`}
      >
        <p>
          Both lines of descent are followed back until they meet in one gene. Where they meet in an
          inbred fish, but in its two different genes, they are followed further back. Unlike the
          paths above, these parts show old inbreeding where it arose; they also add up to F
          {complete ? '.' : ', as far as the lines could be followed.'} Our own form of a standard
          argument.
        </p>
      </Why>
      <DataTable
        caption="F by the ancestor in which it arose"
        low
        rows={byOrigin}
        rowKey={({ ancestor }) => ancestor.id}
        columns={originColumns()}
      />
      {rest !== null && <p className="lw-quiet">{rest}</p>}
    </div>
  );
}

function originColumns(): readonly Column<InbreedingSources['byOrigin'][number]>[] {
  return [
    {
      key: 'ancestor',
      title: 'Ancestor',
      cell: ({ ancestor }) => <FishLink fish={ancestor} />,
    },
    {
      key: 'back',
      title: 'Generations back',
      number: true,
      cell: (origin) => plainNumber(origin.meanGenerations, 1),
    },
    {
      key: 'adds',
      title: 'Part of F',
      number: true,
      cell: ({ contribution }) => percent(contribution, 3),
    },
  ];
}

function ByAge({ sources, fish }: SourcesProps) {
  const known = fish.inbreedingBasis === 'KNOWN';
  const { byGenerations, ancestralInbreeding, coefficient } = sources;
  const rows = byGenerations.map((within, k) => ({ back: k + 1, within }));
  return (
    <div>
      <h3>Recent and old</h3>
      <Why
        about="Ancestral inbreeding"
        figure={`Ancestral inbreeding ${leastPercent(ancestralInbreeding, known)}`}
      >
        <p>
          The chance that a gene of the fish was one of two equal copies in some inbred ancestor,
          and so has already passed the selection that inbreeding brings. It assumes that the
          history of a gene and the inbreeding of the fish that has it are independent, which is not
          quite true. It does not say that old inbreeding is harmless. Source: Ballou JD (1997)
          Journal of Heredity 88:169-178, formula from memory, confirmed by independent computation.
        </p>
      </Why>
      <DataTable
        caption="F as it would be with fewer generations on record"
        low
        rows={rows}
        rowKey={({ back }) => String(back)}
        columns={ageColumns(known, coefficient)}
      />
    </div>
  );
}

function ageColumns(
  known: boolean,
  coefficient: number,
): readonly Column<{ back: number; within: number }>[] {
  return [
    { key: 'back', title: 'Generations back', cell: ({ back }) => back },
    {
      key: 'recent',
      title: 'F from these',
      number: true,
      cell: ({ within }) => leastPercent(within, known, 3),
    },
    {
      key: 'old',
      title: 'From older ones',
      number: true,
      cell: ({ within }) => percent(Math.max(0, coefficient - within), 3),
    },
  ];
}
