import { Button } from '@mantine/core';
import { Facts } from '../components/facts.js';
import { Focused } from '../components/focused.js';
import { Caution, Cautions, Done, ProblemNotice } from '../components/notice.js';
import { Screen } from '../components/screen.js';
import { Section } from '../components/section.js';
import { EmptyPart } from '../components/empty-part.js';
import { NotSharedContext } from '../session/not-shared.js';
import { Empty, Loading, Shown } from '../components/states.js';
import { asPercent, StockFigures } from '../components/stock-figures.js';
import { WithdrawnNotice } from '../components/withdraw-record.js';
import { Why } from '../components/why.js';
import { figureWords } from '../wording/line-health-words.js';
import {
  emptyBox,
  longWords,
  masked,
  nothing,
  severalFields,
  unreachable,
} from './invented-words.js';
import type { Parts } from './parts.js';

const read = { data: undefined, loading: false, refreshing: false, problem: null, reload: nothing };

/** Words, notices and what stands around them. */
export const wordParts: Parts = {
  Screen: {
    'with lead and actions': () => (
      <Screen
        title="T24-07-12"
        lead="male, turquoise, 9 months"
        actions={<Button size="xs">Correct</Button>}
      >
        <p>What the screen shows.</p>
      </Screen>
    ),
    'long words': () => (
      <Screen title={longWords}>
        <p>{longWords}</p>
      </Screen>
    ),
  },
  Section: {
    'with a number and actions': () => (
      <Section title="Fish in use" aside="12 fish" actions={<Button size="xs">Add fish</Button>}>
        <p>What the section shows.</p>
      </Section>
    ),
    'long words': () => (
      <Section title={longWords} aside={longWords}>
        <p>{longWords}</p>
      </Section>
    ),
  },
  Facts: {
    'recorded and not recorded': () => (
      <Facts
        facts={[
          { name: 'Tag', value: 'T24-07-12' },
          { name: 'Hatched', value: null },
          { name: 'Note', value: longWords },
        ]}
      />
    ),
  },
  Why: {
    closed: () => (
      <Why about="F of T24-07-12" figure="25.0 %">
        <p>Its parents are full sibs.</p>
      </Why>
    ),
    open: () => (
      <Why about="F of T24-07-13" figure="25.0 %" open>
        <p>{longWords}</p>
      </Why>
    ),
  },
  StockFigures: {
    'with and without an error, and none': () => (
      <StockFigures
        figures={[
          {
            words: figureWords.inbreeding,
            figure: {
              value: 0.182,
              whyNone: null,
              standardError: null,
              inputs: [{ name: 'fish in use', value: 14 }],
            },
            write: asPercent,
            beside: 'from 3.1 % to 37.5 %',
          },
          {
            words: figureWords.genomesByRetention,
            figure: {
              value: 3.42,
              whyNone: null,
              standardError: 0.05,
              inputs: [{ name: 'mean part of their genes left', value: 0.61 }],
            },
          },
          {
            words: figureWords.sizeFromRate,
            figure: {
              value: null,
              whyNone: 'Fewer than two generations are on record.',
              standardError: null,
              inputs: [],
            },
          },
        ]}
      />
    ),
  },
  ProblemNotice: {
    'the server does not answer': () => <ProblemNotice problem={unreachable} onRetry={nothing} />,
    'several fields': () => <ProblemNotice problem={severalFields} />,
    'a masked error': () => <ProblemNotice problem={masked} />,
    none: () => emptyBox(<ProblemNotice problem={null} />),
  },
  Caution: {
    one: () => <Caution>Keep fighting fish apart.</Caution>,
    'long words': () => <Caution>{longWords}</Caution>,
  },
  Cautions: {
    several: () => <Cautions of={['Keep fighting fish apart.', longWords]} />,
    one: () => <Cautions of={['Never release fish into any water.']} />,
    none: () => emptyBox(<Cautions of={[]} />),
  },
  WithdrawnNotice: {
    withdrawn: () => (
      <WithdrawnNotice withdrawn={{ at: '2026-03-12T08:00:00Z', reason: longWords }} />
    ),
    standing: () => emptyBox(<WithdrawnNotice withdrawn={null} />),
  },
  Done: { plain: () => <Done>T24-07-12 is recorded.</Done> },
  Focused: {
    plain: () => (
      <Focused>
        <p>Takes the focus when it comes up.</p>
      </Focused>
    ),
  },
  Loading: { plain: () => <Loading />, named: () => <Loading what="the pedigree" /> },
  EmptyPart: {
    shared: () => <EmptyPart part="PHOTOS">No photo yet.</EmptyPart>,
    'not shared': () => (
      <NotSharedContext value={['PHOTOS']}>
        <EmptyPart part="PHOTOS">No photo yet.</EmptyPart>
      </NotSharedContext>
    ),
  },
  Empty: {
    plain: () => <Empty>No photo yet.</Empty>,
    'with a way on': () => (
      <Empty action={<Button>Record the first fish</Button>}>No fish is recorded yet.</Empty>
    ),
  },
  Shown: {
    'on its way': () => (
      <Shown read={{ ...read, loading: true }} what="the fish">
        {() => null}
      </Shown>
    ),
    'what was read': () => (
      <Shown read={{ ...read, data: 'T24-07-12' }} what="the fish">
        {(tag) => <p>{tag}</p>}
      </Shown>
    ),
    'read before, refused now': () => (
      <Shown read={{ ...read, data: 'T24-07-12', problem: unreachable }} what="the fish">
        {(tag) => <p>{tag}</p>}
      </Shown>
    ),
    refused: () => (
      <Shown read={{ ...read, problem: masked }} what="the fish">
        {() => null}
      </Shown>
    ),
  },
};
