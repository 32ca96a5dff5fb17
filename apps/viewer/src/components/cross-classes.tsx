import type { Cross } from '../api/heredity.js';
import { notDrawn, showsOf } from '@linewright/pictures';
import { percent, plainNumber } from '../wording/figures.js';
import { DataTable } from './data-table.js';
import type { Column } from './data-table.js';
import { DrawnLook } from './drawn-look.js';

type WholeClass = Cross['classes'][number];
type CrossClass = Omit<WholeClass, 'shares'> & { shares: readonly unknown[] };

interface ShownCross extends Omit<Cross, 'classes'> {
  classes: readonly CrossClass[];
}

/** The classes expected of a cross: exact fraction, chance, count in a brood, and how many fry to raise to see one. */
export function CrossClasses({ cross }: { cross: ShownCross }) {
  return (
    <>
      {cross.classes.length === 0 ? (
        <p className="lw-quiet">
          No locus is known for both parents, so no classes can be worked out. Record the genotypes
          of both parents to see them.
        </p>
      ) : (
        <DataTable
          caption="Expected classes"
          rows={cross.classes}
          rowKey={(each) => each.phenotype}
          columns={classColumns(cross)}
        />
      )}
      <HowDrawn cross={cross} />
      {cross.classes.length > 0 && (
        <p className="lw-quiet">Every fry raised needs a home: a rare class may not be worth it.</p>
      )}
      {cross.lostFraction !== null && (
        <p>{cross.lostFraction} of the embryos are expected to be lost and are not counted.</p>
      )}
      {cross.assumed.length > 0 && (
        <ul className="lw-quiet">
          {cross.assumed.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
      <NotComputed cross={cross} />
    </>
  );
}

/** A drawing shows no more than the class says, and not all of that. */
function HowDrawn({ cross: { classes } }: { cross: ShownCross }) {
  const shows = showsOf(classes.flatMap(({ parts }) => parts));
  const left = notDrawn(shows);
  if (left.length === Object.keys(shows).length) return null;
  return (
    <p className="lw-quiet">
      The drawings show the class and nothing else: what it does not say is drawn plain
      {left.length > 0 && `, and ${left.join(', ')} has no drawing`}.
    </p>
  );
}

function NotComputed({ cross }: { cross: ShownCross }) {
  return (
    cross.notComputed.length > 0 && (
      <>
        <h3>Not worked out</h3>
        <ul>
          {cross.notComputed.map((each) => (
            <li key={each.locusId}>
              <strong>{each.name}</strong>: {each.reason}
            </li>
          ))}
        </ul>
      </>
    )
  );
}

function classColumns(cross: ShownCross): readonly Column<CrossClass>[] {
  return [
    {
      key: 'class',
      title: 'Class',
      cell: (each) => <DrawnLook words={each.phenotype} parts={each.parts} />,
    },
    { key: 'fraction', title: 'Fraction', number: true, cell: (each) => each.fraction },
    {
      key: 'chance',
      title: 'Chance',
      number: true,
      // The fraction says the same: on a phone there is room for one of them.
      wideOnly: true,
      cell: (each) => percent(each.probability),
    },
    ...(cross.classes.every((each) => each.expectedCount === null)
      ? []
      : [
          {
            key: 'count',
            title: 'Expected',
            number: true,
            cell: (each: CrossClass) =>
              each.expectedCount === null ? '' : plainNumber(each.expectedCount, 1),
          },
        ]),
    {
      key: 'fry',
      title: 'Fry to see one (95 % sure)',
      number: true,
      cell: (each) => each.fryForOne95 ?? (each.shares.length === 0 ? 'not worked out' : 'never'),
    },
  ];
}
