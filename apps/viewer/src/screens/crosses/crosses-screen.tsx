import { Button, NativeSelect } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState, type JSX } from 'react';
import { Link } from 'react-router';
import { CROSS, LOCI, type KnownLocus } from '../../api/crosses.js';
import { useRead } from '../../api/use-read.js';
import { CrossClasses } from '../../components/cross-classes.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { ClassBars, PunnettSquare } from '../../drawings/index.js';
import { BroodSizeField, broodSizeIn } from '../../panels/brood-size-field.js';
import { FryToRaise } from '../../panels/fry-to-raise.js';
import { confidenceText } from '../../wording/pairing-words.js';
import { FitSection } from './fit-section.js';
import { squareOf, startAt, type ChosenLocus, type Square } from './chosen-loci.js';
import crossesStyles from './crosses.module.css';
import type { Cross } from '../../api/heredity.js';

/** A cross of two genotypes, whether or not there are fish that have them. */
export function CrossesScreen() {
  const read = useRead(LOCI, {});
  return (
    <Screen
      title="Crosses"
      lead="Choose loci and the genotypes of sire and dam to see the classes of their brood."
      actions={<Link to="/loci">Loci</Link>}
    >
      <Shown read={read} what="the loci">
        {({ loci }) => <CrossOf loci={loci} />}
      </Shown>
    </Screen>
  );
}

function CrossOf({ loci }: { loci: readonly KnownLocus[] }) {
  const computable = loci.filter((locus) => locus.computable && locus.phenotypes.length > 0);
  const [chosen, setChosen] = useState<ChosenLocus[]>(() =>
    computable.slice(0, 1).map((locus) => startAt(locus)),
  );
  return (
    <>
      <ChosenLoci loci={computable} chosen={chosen} onChange={setChosen} />
      {chosen.length === 0 ? (
        <Empty>Add a locus to see the classes.</Empty>
      ) : (
        <Expectation loci={computable} chosen={chosen} />
      )}
      <NotWorkedOut loci={loci.filter((locus) => !locus.computable)} />
    </>
  );
}

interface ChosenLociProps {
  loci: readonly KnownLocus[];
  chosen: readonly ChosenLocus[];
  onChange: (chosen: ChosenLocus[]) => void;
}

function ChosenLoci({ loci, chosen, onChange }: ChosenLociProps) {
  const left = loci.filter((locus) => !chosen.some((each) => each.locusId === locus.id));
  const change = (locusId: string, part: Partial<ChosenLocus>) =>
    onChange(chosen.map((each) => (each.locusId === locusId ? { ...each, ...part } : each)));
  return (
    <>
      <ul className={crossesStyles['rows']} aria-label="Loci of the cross">
        {chosen.map((each) => {
          const locus = loci.find(({ id }) => id === each.locusId);
          if (locus === undefined) return null;
          const parent = (side: 'sire' | 'dam', word: string) => (
            <NativeSelect
              label={`${word}: ${locus.name}`}
              value={each[side]}
              onChange={(event) => change(locus.id, { [side]: event.currentTarget.value })}
              data={locus.phenotypes.map(({ genotype, phenotype }) => ({
                value: genotype,
                label: `${genotype} · ${phenotype}`,
              }))}
            />
          );
          return (
            <LocusRow
              key={locus.id}
              locus={locus}
              parent={parent}
              onChange={onChange}
              chosen={chosen}
            />
          );
        })}
      </ul>
      {left.length > 0 && <AddLocus left={left} onChange={onChange} chosen={chosen} />}
    </>
  );
}

function LocusRow({
  locus,
  parent,
  onChange,
  chosen,
}: {
  locus: KnownLocus;
  parent: (side: 'sire' | 'dam', word: string) => JSX.Element;
  onChange: (chosen: ChosenLocus[]) => void;
  chosen: readonly ChosenLocus[];
}) {
  return (
    <li className={crossesStyles['row']}>
      <span className={crossesStyles['name']}>
        <strong>{locus.name}</strong>
        <span className="lw-small">{confidenceText(locus.confidence)}</span>
      </span>
      {parent('sire', 'Sire')}
      {parent('dam', 'Dam')}
      <Button
        size="xs"
        aria-label={`Remove ${locus.name}`}
        onClick={() => onChange(chosen.filter(({ locusId }) => locusId !== locus.id))}
      >
        Remove
      </Button>
    </li>
  );
}

function AddLocus({
  left,
  onChange,
  chosen,
}: {
  left: KnownLocus[];
  onChange: (chosen: ChosenLocus[]) => void;
  chosen: readonly ChosenLocus[];
}) {
  return (
    <NativeSelect
      label="Add a locus"
      className="lw-narrow-field"
      value=""
      onChange={(event) => {
        const locus = left.find(({ id }) => id === event.currentTarget.value);
        if (locus !== undefined) onChange([...chosen, startAt(locus)]);
      }}
      data={[
        { value: '', label: 'choose' },
        ...left.map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  );
}

function Expectation({ loci, chosen }: Omit<ChosenLociProps, 'onChange'>) {
  const [typed, setTyped] = useState('100');
  const [settled] = useDebouncedValue(typed, 250);
  const broodSize = broodSizeIn(settled);
  const parent = (side: 'sire' | 'dam') =>
    chosen.map((each) => ({ locusId: each.locusId, genotype: each[side] }));
  const read = useRead(CROSS, {
    input: { sire: parent('sire'), dam: parent('dam'), broodSize },
  });
  const only = chosen.length === 1 ? chosen[0] : undefined;
  const locus = loci.find(({ id }) => id === only?.locusId);
  const square = only === undefined || locus === undefined ? null : squareOf(locus, only);
  return (
    <Section title="Expected classes">
      <BroodSizeField label="Brood size" typed={typed} onTyped={setTyped} />
      <Shown read={read} what="the classes">
        {({ cross }) => (
          <>
            <ExpectedClasses
              cross={cross}
              square={square}
              only={only}
              locus={locus}
              broodSize={broodSize}
            />
            <p className="lw-quiet">
              Loci are taken as unlinked: no linkage between them is known.
            </p>
            {cross.classes.length > 0 && (
              <Section title="Fry to raise">
                <FryToRaise classes={cross.classes} />
              </Section>
            )}
            {cross.classes.length > 1 && (
              <FitSection key={cross.classes.map((each) => each.phenotype).join()} cross={cross} />
            )}
          </>
        )}
      </Shown>
    </Section>
  );
}

interface ExpectedClassesProps {
  cross: Cross;
  square: Square | null;
  only: ChosenLocus | undefined;
  locus: KnownLocus | undefined;
  broodSize: number | null;
}

function ExpectedClasses({ cross, square, only, locus, broodSize }: ExpectedClassesProps) {
  return (
    <div className="lw-two-up">
      <div>
        <CrossClasses cross={cross} />
      </div>
      <div>
        {square !== null && (
          <PunnettSquare
            sire={{ tag: only?.sire ?? '', gametes: square.sire }}
            dam={{ tag: only?.dam ?? '', gametes: square.dam }}
            cells={square.cells}
            classes={square.classes}
            title={`${locus?.name ?? ''}: gametes of sire and dam`}
          />
        )}
        {square === null && broodSize !== null && cross.classes.length > 1 && (
          <ClassBars
            classes={cross.classes.map((each) => ({
              id: each.phenotype,
              label: each.phenotype,
              fraction: each.fraction,
              probability: each.probability,
            }))}
            broodSize={broodSize}
          />
        )}
      </div>
    </div>
  );
}

function NotWorkedOut({ loci }: { loci: readonly KnownLocus[] }) {
  if (loci.length === 0) return null;
  return (
    <Section title="Loci not worked out">
      <p className="lw-quiet">They may be recorded for a fish, but no expectation is computed.</p>
      <ul className="lw-judged">
        {loci.map((locus) => (
          <li key={locus.id}>
            <strong>{locus.name}</strong> ({confidenceText(locus.confidence)}):{' '}
            {locus.whyNotComputable ?? 'no reason is given'}
          </li>
        ))}
      </ul>
    </Section>
  );
}
