import { useState } from 'react';
import type { LineOutcross, OutcrossCourse } from '../../api/outcross.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import viewChoiceStyles from '../../components/view-choice.module.css';
import { OutcrossSteps } from '../../drawings/index.js';
import { percent, plainNumber } from '../../wording/figures.js';
import { leastPercent } from '../../wording/inbreeding-words.js';
import {
  alleleText,
  generationName,
  returnText,
  shortGenerationName,
} from '../../wording/outcross-words.js';

type After = 'back' | 'within';

/** What the young are expected to be, generation by generation: exact from the three fish. */
export function GenerationsSection({ outcross }: { outcross: LineOutcross }) {
  const [after, setAfter] = useState<After>('back');
  const course = after === 'back' ? outcross.backcrosses : outcross.within;
  if (course === null) return null;
  const known = outcross.basis === 'KNOWN';
  return (
    <Section title="Generation by generation">
      <AfterChoice after={after} onChange={setAfter} />
      <CourseTable course={course} after={after} known={known} />
      <p className="lw-quiet lw-words">
        Traits: the mean that is expected, give or take its standard error. Of an allele: young that
        carry it, and those that have it twice. None of the young are chosen among; choosing brings
        a trait back sooner. Around an allele that you choose for, more of the partner’s blood stays
        than the shares say.
      </p>
      <TypeAndAlleles course={course} after={after} />
      <CoursePictures course={course} after={after} line={outcross.lineInbreeding ?? 0} />
    </Section>
  );
}

function AfterChoice({ after, onChange }: { after: After; onChange: (after: After) => void }) {
  const choice = (value: After, text: string) => (
    <button type="button" aria-pressed={after === value} onClick={() => onChange(value)}>
      {text}
    </button>
  );
  return (
    <div className={viewChoiceStyles['choice']} role="group" aria-label="What follows the cross">
      {choice('back', 'Back to the line')}
      {choice('within', 'Brother × sister')}
    </div>
  );
}

interface CourseProps {
  course: OutcrossCourse;
  after: After;
}

type Generation = OutcrossCourse['generations'][number];

function CourseTable({ course, after, known }: CourseProps & { known: boolean }) {
  const more = moreColumns(course);
  return (
    <DataTable
      caption="What the young are expected to be"
      rows={course.generations}
      rowKey={({ generation }) => String(generation)}
      columns={[
        {
          key: 'generation',
          title: 'Generation',
          cell: (one: Generation) => (
            <>
              {generationName(one.generation, after)}
              <div className="lw-phone lw-quiet">
                {more.map(({ key, title, text }) => (
                  <div key={key}>
                    {title}: {text(one)}
                  </div>
                ))}
              </div>
            </>
          ),
        },
        {
          key: 'f',
          title: 'F',
          number: true,
          cell: ({ inbreeding }: Generation) => leastPercent(inbreeding, known, 1),
        },
        {
          key: 'blood',
          title: 'Blood of the line',
          number: true,
          cell: ({ lineShare }: Generation) => `${plainNumber(100 * lineShare, 1)} %`,
        },
        ...more.map(({ key, title, text }) => ({
          ...{ key, title, number: true, wideOnly: true },
          cell: text,
        })),
      ]}
    />
  );
}

interface MoreColumn {
  readonly key: string;
  readonly title: string;
  readonly text: (generation: Generation) => string;
}

/** Traits and alleles: columns of their own where there is room, lines below the generation on a phone. */
const moreColumns = ({ traits, alleles }: OutcrossCourse): MoreColumn[] => [
  ...traits.map(({ traitId, name }, k) => ({
    ...{ key: traitId, title: name },
    text: (one: Generation) =>
      `${plainNumber(one.traits[k]?.mean ?? NaN, 1)} ± ${plainNumber(one.traits[k]?.standardError ?? NaN, 1)}`,
  })),
  ...alleles.map(({ locusId, alleleId, symbol }, k) => ({
    ...{ key: `${locusId} ${alleleId}`, title: `${symbol} carried, twice` },
    text: (one: Generation) =>
      `${percent(one.alleles[k]?.carried ?? NaN, 0)}, ${percent(one.alleles[k]?.twice ?? NaN, 0)}`,
  })),
];

/** What is lost of each trait and when it is back; which alleles are won, and which are at risk. */
function TypeAndAlleles({ course: { traits, alleles }, after }: CourseProps) {
  if (traits.length + alleles.length === 0) return null;
  return (
    <ul>
      {traits.map((trait) => (
        <li key={trait.traitId}>{returnText(trait, after)}</li>
      ))}
      {alleles.map(({ locusId, alleleId, symbol, locusName, inLine, inPartner }) => (
        <li key={`${locusId} ${alleleId}`}>
          {symbol} ({locusName}), {alleleText(inLine, inPartner)}
        </li>
      ))}
    </ul>
  );
}

function CoursePictures({ course, after, line }: CourseProps & { line: number }) {
  const same = 'The table above has the same figures.';
  const name = ({ generation }: Generation): string => shortGenerationName(generation, after);
  return (
    <div className="lw-fans">
      <OutcrossSteps
        title="F of the brood"
        line={line}
        steps={course.generations.map((one) => ({ name: name(one), value: one.inbreeding }))}
        words={(value) => percent(value, 0)}
        sameFigures={same}
      />
      {course.traits.map((trait, k) => (
        <OutcrossSteps
          key={trait.traitId}
          title={`${trait.name}, mean of the young`}
          line={trait.lineMean}
          partner={trait.partner}
          steps={course.generations.map((one) => ({
            name: name(one),
            value: one.traits[k]?.mean ?? NaN,
            error: one.traits[k]?.standardError ?? 0,
          }))}
          words={(value) => plainNumber(value, 1)}
          sameFigures={same}
        />
      ))}
    </div>
  );
}
