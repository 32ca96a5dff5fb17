import {
  nextQuestion,
  worthsFromAnswers,
  type FishChoice,
  type WorthAnswered,
} from '@linewright/mating';
import { Button } from '@mantine/core';
import { useMemo, useState } from 'react';
import { COMPARED_FISH, type PurposeTrait, type SeenFish } from '../../api/line-purpose.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Empty, Shown } from '../../components/states.js';
import { useUnsaved } from '../../components/unsaved.js';
import { plainNumber, plural } from '../../wording/figures.js';
import {
  comparedFish,
  comparedOfAll,
  comparedOf,
  pointsOf,
  pointsText,
  sureness,
  type SurenessWord,
} from './compared-fish.js';
import { FishToCompare } from './fish-to-compare.js';
import type { PurposeValues } from './purpose-values.js';
import type { Looks } from './use-look-choices.js';
import styles from './line-purpose.module.css';

interface CompareFishProps {
  lineId: string;
  wishes: PurposeValues;
  traits: readonly PurposeTrait[];
  looks: Looks;
  /** The points found, as the fields of the form take them, in its order. */
  onPoints: (points: ReturnType<typeof pointsOf>) => void;
}

/** Points asked by comparing fish of the line two at a time. */
export function CompareFish(props: CompareFishProps) {
  const read = useRead(COMPARED_FISH, { lineId: props.lineId });
  if (props.wishes.traits.length + props.wishes.looks.length < 2)
    return (
      <Empty>
        Two wishes are needed to compare: add two traits, two looks, or one of each first.
      </Empty>
    );
  return (
    <Shown read={read} what="the fish of the line">
      {({ fishList: { edges, totalCount } }) => (
        <>
          <LeftOut shown={edges.length} total={totalCount} />
          <Asking {...props} fish={edges.map(({ node }) => node)} />
        </>
      )}
    </Shown>
  );
}

function LeftOut({ shown, total }: { shown: number; total: number }) {
  const words = comparedOfAll(shown, total);
  return words === null ? null : <p className="lw-quiet lw-words">{words}</p>;
}

function Asking({
  fish,
  wishes,
  traits,
  looks,
  onPoints,
}: CompareFishProps & { fish: SeenFish[] }) {
  const { choices, worths, question, choose, pass, takeBack } = useAnswers(fish, wishes);
  useUnsaved(choices.length > 0);
  const shown = { wishes, traits, looks };
  return (
    <>
      {question !== null ? (
        <>
          <p className="lw-quiet lw-words">
            The pair whose answer says most is asked next. Some ten answers are usually enough.
          </p>
          <div className={styles['two']}>
            {question.map((one, k) => (
              <FishToCompare key={one.id} fish={one} {...shown} onChoose={() => choose(k)} />
            ))}
          </div>
          <div className="lw-form-buttons">
            <Button onClick={pass}>Neither: ask about two others</Button>
            {choices.length > 0 && <Button onClick={takeBack}>Take back the last answer</Button>}
          </div>
        </>
      ) : (
        <Empty>
          {choices.length === 0
            ? 'No two fish of the line differ in what is wished for. Score some, or note their looks.'
            : 'All pairs that say anything were asked.'}
        </Empty>
      )}
      <Found worths={[...worths.traits, ...worths.looks]} {...shown} />
      <div className="lw-form-buttons">
        <Button
          className="lw-primary"
          disabled={choices.length === 0}
          onClick={() => onPoints(pointsOf(worths))}
        >
          Put these points into the form
        </Button>
        <span className="lw-quiet">{plural(choices.length, 'answer')} so far</span>
      </div>
    </>
  );
}

/** What was answered so far, what it says, and which two fish are asked about next. */
function useAnswers(fish: readonly SeenFish[], wishes: PurposeValues) {
  const compared = useMemo(() => comparedOf(wishes), [wishes]);
  const known = useMemo(() => fish.map(comparedFish), [fish]);
  const [choices, setChoices] = useState<readonly FishChoice[]>([]);
  const [passed, setPassed] = useState<readonly FishChoice[]>([]);
  const asked = useMemo(
    () => nextQuestion(known, compared, choices, passed),
    [known, compared, choices, passed],
  );
  const worths = useMemo(
    () => worthsFromAnswers(known, compared, choices),
    [known, compared, choices],
  );
  const byId = new Map(fish.map((one) => [one.id, one]));
  const [first, second] = [byId.get(asked?.first ?? ''), byId.get(asked?.second ?? '')];
  const question = first === undefined || second === undefined ? null : ([first, second] as const);
  /** The one at that place before the other. */
  const answer = (at: number): FishChoice[] =>
    question === null ? [] : [{ chosen: question[at]!.id, other: question[1 - at]!.id }];
  return {
    ...{ choices, worths, question },
    choose: (at: number) => setChoices([...choices, ...answer(at)]),
    pass: () => setPassed([...passed, ...answer(0)]),
    takeBack: () => setChoices(choices.slice(0, -1)),
  };
}

const sureWords: Readonly<Record<SurenessWord, string>> = {
  'not asked': 'the fish do not differ in it',
  against: 'your answers go the other way: check the wish',
  sure: 'sure',
  likely: 'likely',
  open: 'open: answer more',
};

interface FoundProps {
  worths: readonly WorthAnswered[];
  wishes: PurposeValues;
  traits: readonly PurposeTrait[];
  looks: Looks;
}

/** What the answers say so far, and how sure it is. */
function Found({ worths, wishes, traits, looks }: FoundProps) {
  const nameOf = (id: string) => traits.find((one) => one.id === id)?.name ?? 'a withdrawn trait';
  const names = [
    ...wishes.traits.map(({ traitId }) => nameOf(traitId)),
    ...wishes.looks.map(({ parts }) =>
      parts.map((part) => looks.names.get(part) ?? part).join(' and '),
    ),
  ];
  const rows = worths.map((worth, k) => ({ worth, name: names[k] ?? '', key: String(k) }));
  return (
    <DataTable
      caption="Points by your answers"
      rows={rows}
      rowKey={({ key }) => key}
      columns={[
        { key: 'name', title: 'Wish', cell: ({ name }) => name },
        {
          key: 'points',
          title: 'Points for 1',
          number: true,
          cell: ({ worth }) =>
            worth.asked
              ? `${pointsText(worth.worth)} ± ${plainNumber(Number(worth.error.toPrecision(2)), 6)}`
              : pointsText(worth.worth),
        },
        { key: 'sure', title: 'How sure', cell: ({ worth }) => sureWords[sureness(worth)] },
      ]}
    />
  );
}
