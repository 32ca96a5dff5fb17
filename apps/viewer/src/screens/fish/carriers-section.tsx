import { Button } from '@mantine/core';
import { useState, type JSX } from 'react';
import { Link } from 'react-router';
import { FISH_CARRIERS, type CarrierLocus } from '../../api/carriers.js';
import type { FishFacts } from '../../api/fish.js';
import { LOCUS_CHOICES } from '../../api/heredity.js';
import { useRead } from '../../api/use-read.js';
import { GenotypeChances } from '../../components/genotype-chances.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { GenotypeBar } from '../../drawings/index.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { CarrierReasonsList } from './carrier-reasons.js';
import { TestMatingsPanel } from './test-matings-panel.js';
import type { ResultOf } from '../../api/graphql.js';

/** What the fish is likely to carry, from every record of it and its kin; each figure says which records moved it. */
export function CarriersSection({ fish }: { fish: FishFacts }) {
  const read = useRead(FISH_CARRIERS, { fishId: fish.id });
  const loci = useRead(LOCUS_CHOICES, {});
  const orderOf = (id: string): readonly string[] =>
    loci.data?.loci.find((one) => one.id === id)?.phenotypes.map((one) => one.genotype) ?? [];
  const shown = (locus: CarrierLocus) => (
    <Locus
      key={locus.locusId}
      fish={fish}
      locus={locus}
      order={orderOf(locus.locusId)}
      onDone={read.reload}
    />
  );
  return (
    <Section title="What it is likely to carry">
      <Shown read={read} what="what it is likely to carry">
        {({ fishCarriers }) => (
          <>
            {fishCarriers.loci.length === 0 && (
              <Empty>
                No record of this fish or its relatives says anything about a locus that can be
                worked out. Record its appearance, or count one of its broods by class.
              </Empty>
            )}
            {fishCarriers.loci.filter((locus) => locus.informed).map(shown)}
            {fishCarriers.loci.some((locus) => !locus.informed) && (
              <NothingRecorded fishCarriers={fishCarriers} shown={shown} />
            )}
            {fishCarriers.leftOut.length > 0 && <LeftOutLoci fishCarriers={fishCarriers} />}
          </>
        )}
      </Shown>
    </Section>
  );
}

interface LocusProps {
  fish: FishFacts;
  locus: CarrierLocus;
  order: readonly string[];
  onDone: () => void;
}

function LeftOutLoci({
  fishCarriers,
}: {
  fishCarriers: ResultOf<typeof FISH_CARRIERS>['fishCarriers'];
}) {
  return (
    <details className="lw-folded">
      <summary>Loci not worked out</summary>
      <ul>
        {fishCarriers.leftOut.map((one) => (
          <li key={one.locusId}>
            <strong>{one.name}</strong>: {one.reason}
          </li>
        ))}
      </ul>
    </details>
  );
}

function NothingRecorded({
  fishCarriers,
  shown,
}: {
  fishCarriers: ResultOf<typeof FISH_CARRIERS>['fishCarriers'];
  shown: (locus: CarrierLocus) => JSX.Element;
}) {
  return (
    <details className="lw-folded">
      <summary>
        Nothing recorded about it or its near relatives:{' '}
        {fishCarriers.loci
          .filter((locus) => !locus.informed)
          .map((locus) => locus.name.toLowerCase())
          .join(', ')}
      </summary>
      {fishCarriers.loci.filter((locus) => !locus.informed).map(shown)}
    </details>
  );
}

function Locus({ fish, locus, order, onDone }: LocusProps) {
  const open = locus.genotypes.length > 1 && (locus.genotypes[0]?.probability ?? 1) < 0.9995;
  return (
    <article className="lw-divided" aria-label={`${locus.name} of ${fish.tag}`}>
      <h3>{locus.name}</h3>
      {locus.impossible !== null && (
        <div className="lw-notice lw-notice-problem">
          <p>
            <strong aria-hidden="true">! </strong>
            {locus.impossible}
          </p>
          <Link to="/contradictions">See which records clash</Link>
        </div>
      )}
      {locus.waiting !== null && (
        <WaitingComputation
          computation={locus.waiting}
          what={locus.name.toLowerCase()}
          onDone={onDone}
        />
      )}
      <GenotypeFigures fish={fish} locus={locus} order={order} open={open} />
    </article>
  );
}

interface GenotypeFiguresProps {
  fish: FishFacts;
  locus: CarrierLocus;
  order: readonly string[];
  /** Whether a test mating could tell more. */
  open: boolean;
}

function GenotypeFigures({ fish, locus, order, open }: GenotypeFiguresProps) {
  const { genotypes } = locus;
  if (genotypes.length === 0) return null;
  return (
    <>
      <GenotypeBar
        shares={genotypes}
        order={order.length > 0 ? order : genotypes.map((one) => one.genotype)}
      />
      <Why about={`${locus.name} of ${fish.tag}`} figure={<GenotypeChances chances={genotypes} />}>
        <CarrierReasonsList fishId={fish.id} locus={locus} />
      </Why>
      <p className="lw-quiet">{locus.founders}</p>
      <TestMatings fish={fish} locus={locus} open={open} />
    </>
  );
}

function TestMatings({ fish, locus, open }: Omit<GenotypeFiguresProps, 'order'>) {
  const [testing, setTesting] = useState(false);
  return (
    <>
      {open && (
        <Button size="xs" onClick={() => setTesting(true)}>
          Which test mating would show it?
        </Button>
      )}
      <Sheet
        title={`Test matings of ${fish.tag}: ${locus.name}`}
        opened={testing}
        onClose={() => setTesting(false)}
        size={860}
      >
        <TestMatingsPanel fishId={fish.id} locus={locus} />
      </Sheet>
    </>
  );
}
