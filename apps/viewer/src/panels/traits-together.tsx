import { TRAITS_TOGETHER, type Together } from '../api/merit.js';
import { useRead } from '../api/use-read.js';
import { type Column, DataTable } from '../components/data-table.js';
import { Empty, Shown } from '../components/states.js';
import { Why } from '../components/why.js';
import { CorrelationScale } from '../drawings/index.js';
import { plainNumber, plural } from '../wording/figures.js';
import { meritScale } from '../wording/merit-scale.js';
import {
  bandOfCorrelation,
  correlationText,
  fromBothText,
  partOfTogether,
  selectingText,
  togetherText,
} from '../wording/together-words.js';
import { WaitingComputation } from './waiting-computation.js';

interface TogetherTrait {
  readonly id: string;
  readonly name: string;
}

interface TogetherProps {
  trait: TogetherTrait;
  other: TogetherTrait;
  /** Asked for its values by both. */
  fish?: { readonly id: string; readonly tag: string };
}

/** How two traits go together, or that it is worked out, or why it cannot be said. */
export function TraitsTogether({ trait, other, fish }: TogetherProps) {
  const read = useRead(TRAITS_TOGETHER, {
    traitId: trait.id,
    otherId: other.id,
    fishId: fish?.id ?? null,
  });
  return (
    <Shown read={read} what="how the two go together">
      {({ traitsTogether: together }) => {
        if (together.waiting !== null)
          return (
            <WaitingComputation
              key={together.waiting.id}
              computation={together.waiting}
              what={`how ${trait.name} and ${other.name} go together`}
              onDone={read.reload}
            />
          );
        if (together.refusal !== null)
          return (
            <Empty>
              Cannot tell yet whether {trait.name} and {other.name} go together:{' '}
              {together.refusal.message} {together.refusal.remedy}
            </Empty>
          );
        return fish === undefined ? (
          <OfStock together={together} trait={trait} other={other} />
        ) : (
          <OfFish together={together} trait={trait} other={other} fish={fish} />
        );
      }}
    </Shown>
  );
}

interface KnownProps extends TogetherProps {
  together: Together;
}

function OfStock({ together, trait, other }: KnownProps) {
  const advice = selectingText(together.verdict, trait.name, other.name);
  const drawn = together.correlations.flatMap((one) => {
    const band = bandOfCorrelation(one);
    return band === null ? [] : [{ ...band, part: partOfTogether(one.part) }];
  });
  return (
    <>
      <Figure together={together} trait={trait} other={other} />
      {advice !== null && <p className="lw-words">{advice}</p>}
      {drawn.length > 0 && (
        <CorrelationScale
          title={`${trait.name} and ${other.name}`}
          correlations={drawn}
          words={(correlation) => plainNumber(correlation, 2)}
        />
      )}
      <Notes together={together} />
    </>
  );
}

function Notes({ together: { notes, selectionCaution } }: { together: Together }) {
  return (
    <>
      {notes.map((note) => (
        <p key={note} className="lw-caution">
          {note}
        </p>
      ))}
      {selectionCaution !== null && (
        <p className="lw-quiet">
          Fish were scored that somebody had chosen: the caution above holds for these figures as
          well.
        </p>
      )}
    </>
  );
}

const partColumns: readonly Column<Together['correlations'][number]>[] = [
  { key: 'part', title: 'Part', cell: ({ part }) => partOfTogether(part) },
  {
    key: 'r',
    title: 'Correlation',
    number: true,
    cell: (one) => {
      const band = bandOfCorrelation(one);
      return band === null
        ? 'not known: one of them does not vary here, or no fish was scored for both on one day'
        : correlationText(band);
    },
  },
];

function Figure({ together, trait, other }: Omit<KnownProps, 'fish'>) {
  return (
    <Why
      about={`${trait.name} and ${other.name} together`}
      figure={togetherText(together, trait.name, other.name)}
    >
      <p>
        From {plural(together.fishScored, 'scored fish', 'scored fish')}, of which{' '}
        {together.fishWithBoth} were scored on both. Two traits can go together because the same
        genes act on both, or because the same food, water and luck do: relatives tell the two
        apart. Both traits are fitted at once (REML); it counts as known only where the scores are
        clearly less likely without it (likelihood ratio, 5 in 100). Grades, and yes or no, are
        taken as numbers.
      </p>
      <DataTable
        caption="How they go together, part by part"
        rows={together.correlations}
        rowKey={({ part }) => part}
        columns={partColumns}
      />
    </Why>
  );
}

function OfFish({ together, trait, other, fish }: KnownProps) {
  return (
    <>
      <Figure together={together} trait={trait} other={other} />
      <p className="lw-words">By the scores of both traits, of {fish?.tag}:</p>
      <ul>
        {together.ofFish.map(({ trait: of, aboveLine, giveOrTake }) => {
          const { unit, factor } = meritScale(of);
          return (
            <li key={of.id}>
              {aboveLine === null
                ? `${of.name}: it belongs to no line, so there is no mean to compare it with.`
                : fromBothText(of.name, factor * aboveLine, factor * giveOrTake, unit)}
            </li>
          );
        })}
      </ul>
      <Notes together={together} />
    </>
  );
}
