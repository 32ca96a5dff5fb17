import type { MeritModelAnswer, TraitMerit, TraitMeritResult } from '../../api/merit.js';
import type { Trait } from '../../api/traits.js';
import { DataTable } from '../../components/data-table.js';
import { Caution } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Empty } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { HeritabilityCurve } from '../../drawings/index.js';
import { SelectedScores } from '../../panels/selected-scores.js';
import { plainNumber, plural } from '../../wording/figures.js';
import { missingText } from '../../wording/merit-advice.js';
import {
  besideText,
  effectWord,
  GRADED_BANDS,
  modelWord,
  partWords,
  priorWords,
  REPEATED_BANDS,
  shareWord,
  STEP_MEANING,
} from '../../wording/merit-model-words.js';
import {
  atEdgeText,
  fromPriorText,
  HERITABILITY_MEANING,
  heritabilityText,
  partText,
} from '../../wording/merit-words.js';
import { curvesOf } from './heritability-curves.js';

interface HeritabilitySectionProps {
  trait: Trait;
  merit: TraitMerit;
  result: TraitMeritResult;
}

/** How much of a trait is inherited here, how wide that is, and how much of it was assumed. */
export function HeritabilitySection({ trait, merit, result }: HeritabilitySectionProps) {
  const shown = result.shown === 'THRESHOLD' ? result.threshold : result.linear;
  const refusal = result.shown === 'THRESHOLD' ? result.thresholdRefusal : result.linearRefusal;
  const missing = missingText(merit.counts, trait.name);
  return (
    <Section
      title="How much is inherited"
      aside={`${plural(merit.counts.fish, 'fish', 'fish')} of ${plural(merit.counts.broods, 'brood')} scored`}
    >
      <p className="lw-words">{HERITABILITY_MEANING}</p>
      {missing !== null && <Empty>{missing}</Empty>}
      {shown === null && missing === null && refusal !== null && (
        <Empty>
          {refusal.message} {refusal.remedy}
        </Empty>
      )}
      {shown !== null && merit.counts.fish > 0 && (
        <Known trait={trait} merit={merit} result={result} shown={shown} />
      )}
    </Section>
  );
}

interface KnownProps extends HeritabilitySectionProps {
  shown: MeritModelAnswer;
}

function Known({ trait, merit, result, shown }: KnownProps) {
  const { heritability } = shown;
  const band = bandOf(heritability.bands, 0.95);
  const { meaning, ofNumbers } = priorWords[heritability.prior.prior];
  return (
    <>
      <SelectedScores of={[{ name: trait.name, selectionCaution: merit.selection.message }]} />
      <Why
        about={`heritability of ${trait.name}`}
        figure={heritabilityText(heritability.mean, band)}
      >
        <WhyHeritability merit={merit} result={result} shown={shown} />
      </Why>
      <p className="lw-words">{fromPriorText(heritability.fromPrior)}</p>
      <HeritabilityCurve
        title={`Heritability of ${trait.name}`}
        {...curvesOf(heritability.curve, heritability.prior.prior)}
        mean={heritability.mean}
        bands={heritability.bands.map(({ probability, low, high }) => ({
          percent: Math.round(100 * probability),
          low,
          high,
        }))}
      />
      <p className="lw-quiet">
        {meaning} {shown.kind === 'LINEAR' ? ofNumbers : GRADED_BANDS}
      </p>
      <WhyAsNumbers result={result} />
      <ModelsCompared result={result} />
      {result.notes.filter(isSaidHere).map(({ code, message }) => (
        <p key={`${code} ${message}`} className="lw-caution">
          {message}
        </p>
      ))}
    </>
  );
}

type Note = TraitMeritResult['notes'][number];

/** Where the two models stand beside each other it is said there. */
const isSaidHere = ({ code }: Note): boolean => code !== 'MERIT_ORDERS_DIFFER';

/** The band of a probability; the whole range where it is not given. */
export function bandOf(
  bands: MeritModelAnswer['heritability']['bands'],
  probability: number,
): { low: number; high: number } {
  return bands.find((band) => band.probability === probability) ?? { low: 0, high: 1 };
}

/** Grades that could not be taken in their order are shown as numbers, and it is said why. */
function WhyAsNumbers({ result: { shown, thresholdRefusal } }: { result: TraitMeritResult }) {
  if (shown === 'THRESHOLD' || thresholdRefusal === null) return null;
  return (
    <Caution>
      Grades are taken as numbers here. {thresholdRefusal.message} {thresholdRefusal.remedy}
    </Caution>
  );
}

const correlationText = (correlation: number | null): string =>
  correlation === null ? '' : ` (rank correlation ${correlation.toFixed(2)})`;

/** Which of two models is shown, and whether they would choose the same fish. */
function ModelsCompared({
  result: { shown, comparison, linear, notes },
}: {
  result: TraitMeritResult;
}) {
  if (shown !== 'THRESHOLD') return null;
  const differ = notes.find((note) => !isSaidHere(note));
  return (
    <>
      <p className="lw-words">
        Shown: {modelWord.THRESHOLD}. Nothing is assumed of how far apart they are: each fish has
        more or less of what makes the grade, and shows the next grade once it has enough.
        {linear !== null &&
          ` With ${modelWord.LINEAR}, ${partText(linear.heritability.mean)} would be inherited.`}
      </p>
      {comparison !== null && comparison.partWays && (
        <Caution>
          The two models part ways{correlationText(comparison.rankCorrelation)}. {differ?.message}{' '}
          Do not choose by small differences here.
        </Caution>
      )}
      {comparison !== null && !comparison.partWays && (
        <p className="lw-quiet">
          Both models name nearly the same fish among the best quarter
          {correlationText(comparison.rankCorrelation)}.
        </p>
      )}
    </>
  );
}

function WhyHeritability({ merit, result, shown }: Omit<KnownProps, 'trait'>) {
  const { counts, fittedParts, besideTraits } = merit;
  const left = fittedParts.filter(({ fitted }) => !fitted);
  return (
    <>
      <p>
        From {plural(counts.looks, 'score')} of {plural(counts.fish, 'fish', 'fish')} of{' '}
        {plural(counts.broods, 'brood')}, by {plural(counts.sires, 'sire')} and{' '}
        {plural(counts.dams, 'dam')}, with the whole pedigree: relatives resemble one another the
        more, the more is inherited. Every heritability was tried, and each counts by how well it
        explains the scores and by what was assumed before.
      </p>
      <DataTable
        caption="Where the differences between scores come from"
        rows={shown.shares}
        rowKey={({ name }) => name}
        columns={[
          { key: 'name', title: 'Part of the differences', cell: ({ name }) => shareWord(name) },
          {
            key: 'share',
            title: 'About',
            number: true,
            cell: ({ share }) => partText(share),
          },
        ]}
      />
      {left.length > 0 && (
        <p>
          Not set apart:{' '}
          {left
            .map(({ part, whyNot }) => `${partWords[part].label.toLowerCase()} (${whyNot ?? ''})`)
            .join('; ')}
        </p>
      )}
      {besideTraits.map((one) => (
        <p key={one.traitId}>{besideText(one)}</p>
      ))}
      <Effects effects={shown.effects} />
      {shown.kind === 'THRESHOLD' && <p>Effects are in steps. {STEP_MEANING}</p>}
      <p>
        Whose broods: only those recorded in this install. Nothing of other people’s records is
        pooled in, and nothing of yours is sent anywhere.
      </p>
      <SingleEstimate result={result} />
      {fittedParts.some(({ part, fitted }) => part === 'LOOKS' && fitted) && (
        <p>{REPEATED_BANDS}</p>
      )}
      <p>
        Source: animal model (Henderson 1984), the heritability integrated over a grid under the
        stated prior. Bands hold when the prior and the pedigree are right and fish were scored at
        random.
      </p>
    </>
  );
}

function Effects({ effects }: { effects: MeritModelAnswer['effects'] }) {
  if (effects.length === 0) return null;
  return (
    <DataTable
      caption="What season, sex and age do to a score"
      low
      rows={effects}
      rowKey={({ column, level }) => `${column} ${level ?? ''}`}
      columns={[
        {
          key: 'what',
          title: 'Corrected for',
          cell: ({ column, level }) => effectWord(column, level),
        },
        { key: 'value', title: 'Effect', number: true, cell: ({ value }) => plainNumber(value, 2) },
        {
          key: 'error',
          title: 'Standard error',
          number: true,
          cell: ({ standardError }) =>
            standardError === null ? '' : plainNumber(standardError, 2),
        },
      ]}
    />
  );
}

/** The plain estimate beside what was integrated, for whoever knows it from books. */
function SingleEstimate({ result: { reml, remlRefusal } }: { result: TraitMeritResult }) {
  if (reml === null)
    return remlRefusal === null ? null : (
      <p>
        There is no single estimate by REML: {remlRefusal.message} {remlRefusal.remedy}
      </p>
    );
  const error =
    reml.standardError === null
      ? 'no standard error at the edge of its range'
      : `standard error ${partText(reml.standardError)}`;
  return (
    <p>
      A single estimate by REML (Patterson &amp; Thompson 1971), with scores taken as numbers and
      nothing assumed before: {partText(reml.heritability)}, {error}.
      {reml.atEdge && ` ${atEdgeText(reml.heritability)}`} With few fish such an estimate is a
      lottery; it is not what the values rest on.
    </p>
  );
}
