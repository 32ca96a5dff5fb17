import { Button } from '@mantine/core';
import { useState } from 'react';
import { LOCUS_CHOICES, type LocusChoice } from '../../api/heredity.js';
import { HOW_INHERITED, type HowInherited, type Look } from '../../api/inheritance.js';
import { useRead } from '../../api/use-read.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { plural } from '../../wording/figures.js';
import { inheritanceVerdict, weightText } from './inheritance-words.js';
import { LookChoice, lastLook } from './look-choice.js';
import styles from './inheritance.module.css';

/** One look, weighed over all fish on record. */
export function WeighSection() {
  const read = useRead(LOCUS_CHOICES, {});
  return (
    <Section title="One locus, two, or many?">
      <p className="lw-quiet">
        Every fish that was looked at counts, with its parents and its kin. Also record the fish
        that do not show it: without them there is no answer.
      </p>
      <Shown read={read} what="the loci">
        {({ loci }) => <Choice loci={loci.filter((locus) => locus.visible.length > 1)} />}
      </Shown>
    </Section>
  );
}

function Choice({ loci }: { loci: readonly LocusChoice[] }) {
  const [first] = loci;
  const [look, setLook] = useState<Look>(() =>
    first === undefined ? { locusId: '', phenotype: '' } : lastLook(first),
  );
  const [asked, setAsked] = useState<Look | null>(null);
  if (first === undefined)
    return <Empty>Define a locus first, with the looks that you want to weigh.</Empty>;
  return (
    <>
      <div className={styles['choice']}>
        <LookChoice loci={loci} look={look} onChange={setLook} />
        <Button onClick={() => setAsked(look)}>Weigh it</Button>
      </div>
      {asked !== null && <Weighed asked={asked} />}
    </>
  );
}

function Weighed({ asked }: { asked: Look }) {
  const read = useRead(HOW_INHERITED, { ...asked });
  return (
    <Shown read={read} what="the ways of inheritance">
      {({ howInherited }) => <Ways found={howInherited} />}
    </Shown>
  );
}

const columns: readonly Column<HowInherited['ways'][number]>[] = [
  { key: 'meaning', title: 'Way', cell: (way) => way.meaning },
  { key: 'weight', title: 'Weight', number: true, cell: (way) => weightText(way.weight) },
];

function Ways({ found }: { found: HowInherited }) {
  return (
    <>
      <p role="status">
        <strong>{inheritanceVerdict(found)}</strong> {found.shown} of{' '}
        {plural(found.looked, 'fish', 'fish')} show {found.phenotype}.
        {found.contradicting > 0 &&
          ` ${plural(found.contradicting, 'fish', 'fish')} not counted: their looks contradict each other.`}
      </p>
      <DataTable
        caption="Ways of inheritance, the likeliest first"
        rows={found.ways}
        rowKey={(way) => way.code}
        columns={columns}
      />
      <p className="lw-quiet">
        A verdict is given when one kind has 95 % of the weight.
        {found.leftOut > 0 &&
          ` ${plural(found.leftOut, 'way was', 'ways were')} not weighed: the pedigree is too tangled for them.`}{' '}
        Assumed: no sex linkage, loci that are not linked, founders that mated at random, and one
        mistake in a hundred looks. If families were put on record because a fish showed the look,
        it seems more common than it is.
      </p>
    </>
  );
}
