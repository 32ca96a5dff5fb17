import { catalogue } from '@linewright/heredity';
import { GOODNESS_OF_FIT, LOCUS_CHOICES } from '../../api/heredity.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { FitResult } from '../../components/fit-result.js';
import { Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { ClassBars } from '../../drawings/index.js';
import { percent, plural } from '../../wording/figures.js';
import { type ObservedScoring, type TestedClasses, testedClasses } from './observed-counts.js';
import { useLogWithdrawal } from './use-log-withdrawal.js';

interface ScoringProps {
  spawn: { id: string; tag: string };
  on: string;
  scoring: ObservedScoring;
}

/** One scoring of the brood: its counts against what the parents lead to expect at the loci it was counted at. */
export function Scoring({ spawn, on, scoring }: ScoringProps) {
  const { unexpected } = scoring;
  const { data } = useRead(LOCUS_CHOICES, {});
  const at = lociText(scoring.locusIds, data?.loci ?? catalogue);
  const tested = testedClasses(scoring);
  return (
    <>
      {tested === null ? (
        <p className="lw-quiet">
          {plural(scoring.total, 'fish', 'fish')} counted at {at} on {on}. What to expect there
          cannot be worked out from the parents’ recorded genotypes.
        </p>
      ) : (
        <Expected {...{ spawn, on, scoring, at, tested }} />
      )}
      {unexpected.length > 0 && (
        <p>
          Counted at {at} but not expected from these parents:{' '}
          {unexpected.map((each) => `${each.number} ${each.phenotype}`).join(', ')}. A parent’s
          genotype may be other than recorded, a fish may be put in the wrong class, or its class is
          not a look of the locus (such as “unsure”). The test of fit leaves these out.
        </p>
      )}
      <CountedRows spawnId={spawn.id} on={on} at={at} scoring={scoring} />
    </>
  );
}

interface ExpectedProps extends ScoringProps {
  /** Names of the loci. */
  at: string;
  tested: TestedClasses;
}

/** The classes that came beside those that were to come, and how well they fit. */
function Expected({ spawn, on, scoring: { byClass, total }, at, tested }: ExpectedProps) {
  const among = tested.notSeen.length > 0 ? ' among those that can be seen' : '';
  const classes = tested.expected.map(({ phenotype, fraction, probability }) => ({
    ...{ id: phenotype, label: phenotype, fraction, probability },
    observed: byClass.get(phenotype) ?? 0,
  }));
  return (
    <>
      <ClassBars
        classes={classes}
        broodSize={tested.tested}
        title={`Classes of spawn ${spawn.tag} at ${at}`}
        caption={`${plural(total, 'fish', 'fish')} counted at ${at} on ${on}, against what the parents' genotypes lead to expect there${among}.`}
      />
      {tested.notSeen.length > 0 && (
        <p className="lw-quiet">
          No fish was put in {tested.notSeen.map((one) => `“${one}”`).join(', ')}, where another
          locus hides what there is to see: the fractions are those among the others.
        </p>
      )}
      {tested.expected.length > 1 && <FitOf {...{ tested, byClass, at, total }} />}
    </>
  );
}

/** The person's own loci come from the API; until it has answered, and for one it does not know, the id must do. */
function lociText(
  locusIds: readonly string[],
  loci: readonly { id: string; name: string }[],
): string {
  if (locusIds.length === 0) return 'no named locus';
  return locusIds
    .map((id) => loci.find((locus) => locus.id === id)?.name.toLowerCase() ?? id)
    .join(' and ');
}

interface FitProps {
  tested: TestedClasses;
  total: number;
  byClass: ReadonlyMap<string, number>;
  at: string;
}

function FitOf({ tested, byClass, at, total }: FitProps) {
  const observed = tested.expected.map((each) => ({
    name: each.phenotype,
    observed: byClass.get(each.phenotype) ?? 0,
    fraction: each.fraction,
  }));
  const counted = observed.some((each) => each.observed > 0);
  const read = useRead(GOODNESS_OF_FIT, { input: { observed } }, { pause: !counted });
  if (!counted) return null;
  return (
    <Shown read={read} what="the test of fit">
      {({ goodnessOfFit: fit }) => (
        <Why
          about={`the test of fit at ${at}`}
          figure={`Fit${tested.tested < total ? ` of ${tested.tested} of ${total} fish` : ''}: p ${fit.pValue < 0.001 ? 'under 0.001' : `= ${fit.pValue.toFixed(3)}`}`}
        >
          <FitResult fit={fit} />
        </Why>
      )}
    </Shown>
  );
}

interface CountedRowsProps {
  spawnId: string;
  on: string;
  at: string;
  scoring: ObservedScoring;
}

function CountedRows({ spawnId, on, at, scoring: { counts, total } }: CountedRowsProps) {
  const withdrawal = useLogWithdrawal(spawnId);
  return (
    <>
      <DataTable
        caption={`Class counts of ${on} at ${at}`}
        rows={counts}
        rowKey={(count) => count.id}
        columns={[
          { key: 'class', title: 'Class', cell: (count) => count.phenotype },
          { key: 'number', title: 'Counted', number: true, cell: (count) => count.number },
          {
            key: 'share',
            title: 'Share',
            number: true,
            cell: (count) => (total === 0 ? '' : percent(count.number / total, 1)),
          },
          {
            key: 'age',
            title: 'Age',
            number: true,
            cell: (count) => (count.ageDays === null ? '' : `${count.ageDays} d`),
          },
          {
            key: 'do',
            changes: true,
            title: <span className="lw-heard">Actions</span>,
            cell: (count) => withdrawal.button(count.id, `count of ${count.phenotype}`),
          },
        ]}
      />
      {withdrawal.sheet}
    </>
  );
}
