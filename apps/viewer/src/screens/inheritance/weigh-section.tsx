import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { LOCUS_CHOICES, type LocusChoice } from '../../api/heredity.js';
import { HOW_INHERITED, type HowInherited } from '../../api/inheritance.js';
import { useRead } from '../../api/use-read.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { plural } from '../../wording/figures.js';
import { inheritanceVerdict, weightText } from './inheritance-words.js';
import styles from './inheritance.module.css';

interface Asked {
  readonly locusId: string;
  readonly phenotype: string;
}

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
  const [locusId, setLocusId] = useState(loci[0]?.id ?? '');
  const locus = loci.find(({ id }) => id === locusId);
  const [look, setLook] = useState('');
  const [asked, setAsked] = useState<Asked | null>(null);
  if (locus === undefined)
    return <Empty>Define a locus first, with the looks that you want to weigh.</Empty>;
  const phenotype = locus.visible.some(({ id }) => id === look)
    ? look
    : (locus.visible.at(-1)?.id ?? '');
  return (
    <>
      <div className={styles['choice']}>
        <NativeSelect
          label="Locus"
          value={locusId}
          onChange={(event) => setLocusId(event.currentTarget.value)}
          data={loci.map(({ id, name }) => ({ value: id, label: name }))}
        />
        <NativeSelect
          label="Look"
          value={phenotype}
          onChange={(event) => setLook(event.currentTarget.value)}
          data={locus.visible.map(({ id, name }) => ({ value: id, label: name }))}
        />
        <Button onClick={() => setAsked({ locusId: locus.id, phenotype })}>Weigh it</Button>
      </div>
      {asked !== null && <Weighed asked={asked} />}
    </>
  );
}

function Weighed({ asked }: { asked: Asked }) {
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
