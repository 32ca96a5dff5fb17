import { Button, NativeSelect } from '@mantine/core';
import { useDebouncedValue, useMediaQuery } from '@mantine/hooks';
import { useState } from 'react';
import { Link, useSearchParams } from 'react-router';
import type { ResultOf } from '../../api/graphql.js';
import { LINE_CHOICES } from '../../api/lines.js';
import { PAIRING_CANDIDATES, type Candidate } from '../../api/pairing-candidates.js';
import { usePages, type Pages } from '../../api/use-pages.js';
import { useRead } from '../../api/use-read.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Loading } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { PlanPairingSheet } from '../../panels/plan-pairing-sheet.js';
import { plural } from '../../wording/figures.js';
import type { PairBasis } from '../../api/judgement.js';
import { WorthBasis } from '../../components/pair-worth.js';
import { Why } from '../../components/why.js';
import { orderText } from '../../wording/worth-words.js';
import { CandidateTable } from './candidate-table.js';
import { leftOutWords, pairKey } from './candidate-words.js';
import { OutcrossSection } from './outcross-section.js';
import { lastLine, rememberLine } from './last-line.js';
import {
  firstLines,
  isFiltered,
  isGrouped,
  readChoice,
  toPairingInput,
  writeChoice,
  type PairingChoice,
  type PairingView,
} from './pairing-choice.js';
import { PairingFilter } from './pairing-filter.js';
import { ProposalSection } from './proposal-section.js';
import type { Candidates } from '../../api/pairing-candidates.js';
import viewChoiceStyles from '../../components/view-choice.module.css';
import { MayChangeContext, useInLinesAlone } from '../../session/may.js';

const PAGE = 25;

const pageOf = ({ pairingCandidates }: ResultOf<typeof PAIRING_CANDIDATES>) => ({
  nodes: pairingCandidates.edges.map((edge) => edge.node),
  hasNextPage: pairingCandidates.pageInfo.hasNextPage,
  endCursor: pairingCandidates.pageInfo.endCursor,
  totalCount: pairingCandidates.totalCount,
  rest: pairingCandidates,
});

const views: readonly { value: PairingView; label: string }[] = [
  { value: 'PROPOSAL', label: 'Pairs to make now' },
  { value: 'LIST', label: 'All pairs in a list' },
  { value: 'OUTCROSS', label: 'Outcross partners' },
];

/** The pairs to make now for a line, every male in use by every female in use, or partners from outside: one at a time. */
export function NextPairingScreen() {
  const [search, setSearch] = useSearchParams();
  const lines = useRead(LINE_CHOICES, {});
  // What is begun with stays while the screen is open, or the address would change its meaning with each choice.
  const [last] = useState(lastLine);
  const begin = firstLines(lines.data?.lines ?? [], last);
  const choice = readChoice(search, begin);
  const change = (part: Partial<PairingChoice>) => {
    if (part.lineIds !== undefined) rememberLine(part.lineIds);
    setSearch(writeChoice({ ...choice, ...part }, begin), {
      replace: true,
      preventScrollReset: true,
    });
  };
  return (
    <Screen
      title="Next pairing"
      lead="The pairs to make now for a line, chosen together; or any pair, or a partner from outside."
      links={<Link to="/planned">Planned pairings</Link>}
      actions={<Link to="/pair">Choose two fish yourself</Link>}
    >
      <ViewChoice view={choice.view} onChange={(view) => change({ view })} />
      {lines.data === undefined && lines.problem === null ? (
        <Loading what="the lines" />
      ) : (
        <Chosen lines={lines.data?.lines ?? []} choice={choice} onChange={change} />
      )}
    </Screen>
  );
}

interface ViewChoiceProps {
  view: PairingView;
  onChange: (view: PairingView) => void;
}

/** Above all that is fetched, so that nothing which arrives moves it under the finger. */
function ViewChoice({ view, onChange }: ViewChoiceProps) {
  return (
    <div className={viewChoiceStyles['choice']} role="group" aria-label="What to show">
      {views.map(({ value, label }) => (
        <button
          key={value}
          type="button"
          aria-pressed={value === view}
          onClick={() => onChange(value)}
        >
          {label}
        </button>
      ))}
    </div>
  );
}

/** What was wished of the proposal stays while another view is looked at. */
function Chosen({ lines, choice, onChange }: ChosenLineProps) {
  return (
    <>
      <div hidden={choice.view !== 'PROPOSAL'}>
        <ChosenLine lines={lines} choice={choice} onChange={onChange} />
      </div>
      {choice.view === 'LIST' && (
        <>
          <PairingFilter choice={choice} onChange={onChange} />
          <JudgedPairs choice={choice} onChange={onChange} />
        </>
      )}
      {choice.view === 'OUTCROSS' && (
        <OutcrossSection lineId={choice.lineIds[0] ?? ''} partners={choice.partners} />
      )}
    </>
  );
}

interface ChosenLineProps extends JudgedPairsProps {
  lines: ResultOf<typeof LINE_CHOICES>['lines'];
}

/** One line is asked for, for which pairs are proposed. */
function ChosenLine({ lines, choice, onChange }: ChosenLineProps) {
  const [lineId] = choice.lineIds;
  const only = choice.lineIds.length === 1 ? lineId : undefined;
  return (
    <>
      <NativeSelect
        label="Line"
        value={only ?? ''}
        data={[
          { value: '', label: 'choose a line' },
          ...lines.map(({ id, code, name }) => ({ value: id, label: `${code} · ${name}` })),
        ]}
        onChange={({ currentTarget: { value } }) =>
          onChange({ lineIds: value === '' ? [] : [value] })
        }
      />
      {only === undefined ? (
        <Empty>Choose a line to see which pairs to make now. This device remembers it.</Empty>
      ) : (
        <MayChangeContext value={lines.find(({ id }) => id === only)?.mayChange ?? false}>
          <ProposalSection key={only} lineId={only} />
        </MayChangeContext>
      )}
    </>
  );
}

interface JudgedPairsProps {
  choice: PairingChoice;
  onChange: (part: Partial<PairingChoice>) => void;
}

/** The judged pairs of what is chosen, asked for once typing has paused. */
function useJudgedPairs(choice: PairingChoice): Pages<Candidate, Candidates> {
  const [asked] = useDebouncedValue(JSON.stringify(toPairingInput(choice)), 300);
  const { sort, direction } = choice;
  const input = JSON.parse(asked) as ReturnType<typeof toPairingInput>;
  return usePages(PAIRING_CANDIDATES, { input, sort, direction, first: PAGE }, pageOf);
}

function JudgedPairs({ choice, onChange }: JudgedPairsProps) {
  const [planning, setPlanning] = useState<Candidate | null>(null);
  const [planned, setPlanned] = useState<ReadonlySet<string>>(new Set());
  const pages = useJudgedPairs(choice);
  const { rest } = pages;
  if (rest?.waiting != null && !pages.loading)
    return <PairsWaiting computation={rest.waiting} onDone={pages.reload} />;
  return (
    <Section title="Pairs" aside={pages.totalCount !== null && plural(pages.totalCount, 'pair')}>
      <ProblemNotice problem={pages.problem} onRetry={pages.reload} />
      {pages.loading && pages.problem === null && <Loading what="the judged pairs" />}
      <NoPairs pages={pages} filtered={isFiltered(choice)} />
      <FoundPairs
        pages={pages}
        choice={choice}
        onChange={onChange}
        planned={planned}
        onPlan={setPlanning}
      />
      {planning !== null && (
        <PlanPairingSheet
          sire={planning.sire}
          dam={planning.dam}
          warnings={planning.warnings}
          onClose={() => setPlanning(null)}
          onPlanned={() => setPlanned((before) => new Set(before).add(pairKey(planning)))}
        />
      )}
    </Section>
  );
}

interface PairsWaitingProps {
  computation: NonNullable<Candidates['waiting']>;
  onDone: () => void;
}

function PairsWaiting({ computation, onDone }: PairsWaitingProps) {
  return (
    <Section title="Pairs">
      <WaitingComputation
        key={computation.id}
        computation={computation}
        what="the pairs: every male by every female"
        doing="Judging"
        whileGoing="Choose one line above for a shorter list."
        onDone={onDone}
      />
    </Section>
  );
}

interface NoPairsProps {
  pages: Pages<Candidate, Candidates>;
  /** Something that is chosen leaves pairs out. */
  filtered: boolean;
}

function NoPairs({ pages: { loading, totalCount, rest }, filtered }: NoPairsProps) {
  const apart = useInLinesAlone();
  return (
    !loading &&
    totalCount === 0 && (
      <Empty action={filtered ? undefined : <Link to="/fish">Go to the fish</Link>}>
        {filtered
          ? 'No pair fits. Allow a larger F, choose other lines, or show discouraged pairs.'
          : 'There is no pair to judge: at least one male and one female that are keepers or on hold are needed. Record the sexes and mark your keepers.'}
        {rest !== undefined && ` ${leftOutWords(rest, apart)}`}
      </Empty>
    )
  );
}

/** What orders the list, with what it is reckoned by. */
function OrderOfPairs({ basis }: { basis: PairBasis }) {
  if (basis.version === 0)
    return (
      <p className="lw-words">
        {orderText(basis)}{' '}
        {basis.lineId !== null && <Link to={`/lines/${basis.lineId}`}>Open the line</Link>}
      </p>
    );
  return (
    <Why about="pairs stand in this order" figure={orderText(basis)}>
      <WorthBasis basis={basis} />
    </Why>
  );
}

interface FoundPairsProps extends JudgedPairsProps {
  pages: Pages<Candidate, Candidates>;
  /** Planned since the list was read, by their keys. */
  planned: ReadonlySet<string>;
  onPlan: (pair: Candidate) => void;
}

function FoundPairs({ pages, choice, onChange, planned, onPlan }: FoundPairsProps) {
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  const apart = useInLinesAlone();
  const grouped = isGrouped(choice);
  const { nodes, rest } = pages;
  if (nodes.length === 0) return null;
  return (
    <>
      <p className="lw-quiet" role="status">
        {grouped &&
          choice.lineIds.length === 0 &&
          'Choose a line above to work within it: this device remembers it. '}
        The first {nodes.length} are shown. {rest !== undefined && leftOutWords(rest, apart)} F
        counts only ancestors on record. Bands of F are guides, not limits.
      </p>
      {rest !== undefined && <OrderOfPairs basis={rest.basis} />}
      <CandidateTable
        candidates={nodes}
        grouped={grouped}
        sort={choice.sort}
        direction={choice.direction}
        onSort={(sort, direction) => onChange({ sort, direction })}
        isPlanned={(each) => each.plannedPairingId !== null || planned.has(pairKey(each))}
        onPlan={onPlan}
        phone={phone}
        asked={(rest?.basis.version ?? 0) > 0}
        best={choice.sort === 'WORTH' && choice.direction === 'DESC' ? (nodes[0] ?? null) : null}
        pairQuery={new URLSearchParams(writeChoice(choice)).toString()}
      />
      {pages.hasNextPage && (
        <p>
          <Button onClick={pages.next}>Show more pairs</Button>
        </p>
      )}
    </>
  );
}
