import '../../look/look.js';
import { StrictMode, useState, type ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import {
  ClassBars,
  FounderShares,
  GenerationPlot,
  PedigreeDrawing,
  PunnettSquare,
  RelationshipMap,
  SurvivalSteps,
} from '../index.js';
import { chartStages } from './chart-stages.js';
import { coancestryOf, inventedLine, somePaths } from './invented.js';
import { meritStages } from './invented-merit.js';

const small = inventedLine(6, 8, 3, 4);
const middle = inventedLine(11, 8, 4, 9);
const large = inventedLine(26, 10, 10, 10);
const smallFocus = small.at(-1)!.id;
const middleFocus = middle.at(-1)!.id;
const smallPaths = somePaths(small, smallFocus, 2);
const planned = [
  { id: 'cross', sireId: 'g6-01', damId: 'g6-02', label: 'planned', inbreeding: 0.281 },
  { id: 'back', sireId: 'g6-01', damId: 'cross', label: 'back to it', inbreeding: 0.3 },
];
const opened = (id: string): void => {
  document.title = `opened ${id}`;
};

function founderShares(): ReactNode {
  const founders = small.filter((one) => one.sireId === null);
  const share = new Map<string, number[]>(
    founders.map((founder, f) => [founder.id, founders.map((_, i) => (i === f ? 1 : 0))]),
  );
  for (const one of small) {
    if (one.sireId === null || one.damId === null) continue;
    const sire = share.get(one.sireId)!;
    const dam = share.get(one.damId)!;
    share.set(
      one.id,
      sire.map((value, i) => (value + dam[i]!) / 2),
    );
  }
  const generations = Array.from({ length: 8 }, (_, g) => {
    const row = small.filter((one) => one.generation === g);
    const mean = founders.map(
      (_, i) => row.reduce((sum, one) => sum + share.get(one.id)![i]!, 0) / row.length,
    );
    return { label: String(g), fishCount: row.length, shares: mean };
  });
  return <FounderShares founders={founders} generations={generations} />;
}

function relationshipMap(): ReactNode {
  const young = middle.filter((one) => one.generation >= 6).slice(0, 40);
  const kin = coancestryOf(middle);
  const index = new Map(middle.map((one, i) => [one.id, i] as const));
  const block = young.flatMap((a) =>
    young.map((b) => kin[index.get(a.id)! * middle.length + index.get(b.id)!]!),
  );
  const fish = young.map((one) => ({ ...one, group: one.spawnId ?? null }));
  return (
    <RelationshipMap fish={fish} coancestry={block} onOpenPair={(a, b) => opened(`${a} ${b}`)} />
  );
}

const gametes = (a: string, b: string) =>
  [`${a}`, `${b}`].flatMap((one) =>
    ['Bl', 'bl'].map((two) => ({ label: `${one} ${two}`, fraction: '1/4' })),
  );
const classOf = (genotype: string): string =>
  `${genotype.includes('C') ? 'dark' : 'light'}-${genotype.includes('BlBl') ? 'turquoise' : genotype.includes('blbl') ? 'steel' : 'royal'}`;

function punnett(): ReactNode {
  const side = gametes('C', 'c');
  const cells = side.map((dam) =>
    side.map((sire) => {
      const [c1, b1] = dam.label.split(' ') as [string, string];
      const [c2, b2] = sire.label.split(' ') as [string, string];
      const pair = (x: string, y: string): string => [x, y].sort().join('');
      const genotype = `${pair(c1, c2)} ${pair(b1, b2)}`;
      return { genotype, classId: classOf(genotype) };
    }),
  );
  const count = new Map<string, number>();
  cells.flat().forEach((cell) => count.set(cell.classId, (count.get(cell.classId) ?? 0) + 1));
  const classes = [...count].map(([id, n]) => ({ id, label: id, fraction: `${n}/16` }));
  return (
    <PunnettSquare
      sire={{ tag: 'RB6-A-01', gametes: side }}
      dam={{ tag: 'RB6-A-02', gametes: side }}
      cells={cells}
      classes={classes}
    />
  );
}

const stages: Readonly<Record<string, () => ReactNode>> = {
  pedigree: () => (
    <PedigreeDrawing
      fish={small}
      focusId={smallFocus}
      scope="all"
      onOpenFish={opened}
      title="Line-bred, 8 generations, all recorded fish"
    />
  ),
  ancestors: () => (
    <PedigreeDrawing
      fish={middle}
      focusId={middleFocus}
      onOpenFish={opened}
      title="Ancestors and descendants"
    />
  ),
  middle: () => (
    <PedigreeDrawing
      fish={middle}
      focusId={middleFocus}
      scope="all"
      onOpenFish={opened}
      title="Larger line, all recorded fish"
    />
  ),
  path: () => (
    <PedigreeDrawing
      fish={small}
      focusId={smallFocus}
      highlightedPaths={smallPaths.slice(0, 1)}
      onOpenFish={opened}
      title="One path highlighted"
    />
  ),
  paths: () => (
    <PedigreeDrawing
      fish={small}
      focusId={smallFocus}
      highlightedPaths={smallPaths}
      onOpenFish={opened}
      title="Two paths highlighted"
    />
  ),
  planned: () => (
    <PedigreeDrawing
      fish={small}
      focusId="g6-01"
      planned={planned}
      onOpenFish={opened}
      title="A branch that is planned"
    />
  ),
  right: () => (
    <PedigreeDrawing
      fish={small}
      focusId={smallFocus}
      scope="all"
      orientation="right"
      onOpenFish={opened}
      title="Oldest at the left"
    />
  ),
  large: () => (
    <PedigreeDrawing
      fish={large}
      focusId={large.at(-1)!.id}
      scope="all"
      foldSpawnsAbove={1000}
      onOpenFish={opened}
      title={`${large.length} fish`}
    />
  ),
  classes: () => (
    <ClassBars
      broodSize={64}
      caption="Chi-square 1.9 with 2 degrees of freedom, p 0.39 (invented counts)."
      classes={[
        { id: 't', label: 'turquoise', fraction: '1/4', probability: 0.25, observed: 13 },
        { id: 'r', label: 'royal blue', fraction: '1/2', probability: 0.5, observed: 36 },
        { id: 's', label: 'steel blue', fraction: '1/4', probability: 0.25, observed: 15 },
      ]}
    />
  ),
  punnett,
  generations: () => (
    <GenerationPlot
      points={middle.map((one) => ({ ...one, inbreeding: one.inbreeding ?? 0 }))}
      guides={[{ at: 0.25, label: 'brood of full sibs' }]}
      onOpenFish={opened}
    />
  ),
  founders: founderShares,
  map: relationshipMap,
  survival: () => (
    <SurvivalSteps
      stages={[
        { id: 'e', label: 'Eggs', count: 320, on: '2026-03-02' },
        { id: 'h', label: 'Hatched', count: 244, on: '2026-03-04' },
        { id: 'f', label: 'Free-swimming', count: null, on: '2026-03-07' },
        { id: 'j', label: 'Jarred', count: 96, on: '2026-05-10', note: 'males only' },
      ]}
    />
  ),
  ...chartStages,
  ...meritStages,
};

function Gallery() {
  const [shown, setShown] = useState(() => new URLSearchParams(location.search).get('show'));
  const names = Object.keys(stages);
  return (
    <main style={{ padding: 14, maxWidth: 1200, margin: '0 auto' }}>
      <h1 style={{ fontSize: 18 }}>Drawings, with invented fish</h1>
      <nav>
        {names.map((name) => (
          <button key={name} type="button" onClick={() => setShown(name)}>
            {name}
          </button>
        ))}
      </nav>
      {(shown === null ? names.filter((name) => name !== 'large') : [shown]).map((name) => (
        <section key={name} id={name} style={{ margin: '18px 0' }}>
          {stages[name]?.()}
        </section>
      ))}
    </main>
  );
}

createRoot(document.querySelector('#root')!).render(
  <StrictMode>
    <Gallery />
  </StrictMode>,
);
