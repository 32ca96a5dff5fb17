import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import type { PurposeContent } from '../../api/line-purpose.js';
import {
  ROUND,
  ROUND_PURPOSE,
  type Round,
  type RoundPair,
  WITHDRAW_ROUND,
} from '../../api/round-course.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { FishLink } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { MakerChoice } from '../../panels/maker-choice.js';
import { percent, plainNumber, plural } from '../../wording/figures.js';
import type { PairingState } from '../../wording/words.js';
import type { LookNames } from '../line-purpose/purpose-words.js';
import { useLookChoices } from '../line-purpose/use-look-choices.js';
import { Brood } from './brood-came.js';
import { LearntForm } from './learnt-form.js';
import styles from './round.module.css';

/** The course of one round: what was planned, what spawned, what came, what was learnt. */
export function RoundScreen() {
  const { id = '' } = useParams();
  const read = useRead(ROUND, { id });
  return (
    <Shown read={read} what="the round">
      {({ round }) => <RoundPage key={round.id} round={round} />}
    </Shown>
  );
}

function RoundPage({ round }: { round: Round }) {
  const { line, plannedOn, person, pairs, withdrawn } = round;
  const [withdrawing, setWithdrawing] = useState(false);
  return (
    <Screen
      title={`Round of ${plannedOn}, line ${line.code}`}
      lead={`${plural(pairs.length, 'pair')}, adopted by ${person.name}`}
      actions={
        <>
          <Link className="lw-link-button" to={`/lines/${line.id}`}>
            Line {line.code}
          </Link>
          <Button onClick={() => window.print()}>Print this page</Button>
          {withdrawn === null && (
            <Button onClick={() => setWithdrawing(true)}>Take this round back</Button>
          )}
        </>
      }
    >
      {withdrawn !== null && <p>This round was taken back: {withdrawn.reason}</p>}
      <PlanSection round={round} />
      <PairsSection round={round} />
      <CameSection round={round} />
      <Section title="What was learnt">
        <LearntForm round={round} />
      </Section>
      <TakeBack round={round} opened={withdrawing} onClose={() => setWithdrawing(false)} />
    </Screen>
  );
}

interface TakeBackProps {
  round: Round;
  opened: boolean;
  onClose: () => void;
}

function TakeBack({ round, opened, onClose }: TakeBackProps) {
  const planned = round.pairs.filter(({ pairing }) => pairing.state === 'PLANNED').length;
  return (
    <WithdrawRecord
      mutation={WITHDRAW_ROUND}
      record={round}
      title="Take this round back"
      what={`this round, and drop ${plural(planned, 'pair')} of it that ${planned === 1 ? 'has' : 'have'} not spawned; spawns stay`}
      verb="Take back"
      opened={opened}
      onClose={onClose}
    />
  );
}

function PlanSection({ round }: { round: Round }) {
  const { line, purposeVersion, pairs } = round;
  const spawned = pairs.filter(({ pairing }) => pairing.spawns.length > 0).length;
  return (
    <Section title="What was expected">
      <Facts
        facts={[
          {
            name: 'Made for',
            value: (
              <Link to={`/lines/${line.id}/purpose`}>
                {purposeVersion === 0
                  ? `line ${line.code}, before anyone said what it is for`
                  : `version ${purposeVersion} of what line ${line.code} is for`}
              </Link>
            ),
          },
          {
            name: 'Mean worth of a young kept',
            value: worthText(round.expectedWorth),
          },
          { name: 'Mean F of the broods', value: percent(round.expectedInbreeding) },
          { name: 'Mean kinship of the parents', value: percent(round.expectedKinship) },
          {
            name: 'Most kinship allowed',
            value: round.kinshipLimit === null ? 'no limit' : percent(round.kinshipLimit),
          },
          { name: 'Broods', value: `${spawned} of ${pairs.length} have spawned` },
          ...(round.note === null ? [] : [{ name: 'Note', value: round.note }]),
        ]}
      />
    </Section>
  );
}

const worthText = (points: number): string =>
  points < 0
    ? `${plainNumber(-points)} points below the line as it was`
    : `${plainNumber(points)} points above the line as it was`;

const stateWord: Readonly<Record<PairingState, string>> = {
  PLANNED: 'waits for its spawn',
  SPAWNED: 'spawned',
  DROPPED: 'dropped',
};

function PairsSection({ round }: { round: Round }) {
  return (
    <Section title="Pairs" actions={<Link to="/planned">Planned pairings</Link>}>
      <DataTable
        caption="Pairs of the round"
        rows={round.pairs}
        rowKey={({ pairing }) => pairing.id}
        columns={[
          { key: 'pair', title: 'Pair', cell: ({ pairing }) => <Both pairing={pairing} /> },
          {
            key: 'worth',
            title: 'Worth expected',
            number: true,
            cell: ({ expectedWorth }) => plainNumber(expectedWorth),
          },
          {
            key: 'f',
            title: 'F expected',
            number: true,
            cell: ({ expectedInbreeding }) => percent(expectedInbreeding),
          },
          {
            key: 'maker',
            title: 'Made by',
            cell: ({ pairing }) => <Maker pairing={pairing} lineId={round.line.id} />,
          },
          {
            key: 'state',
            title: 'Now',
            cell: ({ pairing }) => (
              <>
                {stateWord[pairing.state]}
                {pairing.spawns.map(({ id, tag }) => (
                  <div key={id}>
                    <Link to={`/spawns/${id}`}>{tag}</Link>
                  </div>
                ))}
              </>
            ),
          },
        ]}
      />
    </Section>
  );
}

function Maker({ pairing, lineId }: { pairing: RoundPair['pairing']; lineId: string }) {
  if (pairing.state !== 'PLANNED') return <>{pairing.maker?.name ?? 'nobody named'}</>;
  const pair = `${pairing.sire.tag} by ${pairing.dam.tag}`;
  return <MakerChoice lineId={lineId} pairing={pairing} pair={pair} />;
}

function Both({ pairing: { sire, dam } }: { pairing: RoundPair['pairing'] }) {
  return (
    <>
      <FishLink fish={sire} /> × <FishLink fish={dam} />
    </>
  );
}

function CameSection({ round }: { round: Round }) {
  const looks = useLookChoices();
  const read = useRead(ROUND_PURPOSE, { lineId: round.line.id, version: round.purposeVersion });
  const any = round.pairs.some(({ pairing }) => pairing.spawns.length > 0);
  return (
    <Section title="What came">
      {any ? (
        <Shown read={read} what="what was wished for">
          {({ linePurpose }) => (
            <Broods round={round} content={linePurpose.content} names={looks.names} />
          )}
        </Shown>
      ) : (
        <p className="lw-words">
          No pair of this round has spawned yet. Record each spawn under “Planned pairings”, and it
          shows here.
        </p>
      )}
    </Section>
  );
}

interface BroodsProps {
  round: Round;
  content: PurposeContent;
  names: LookNames;
}

function Broods({ round, content, names }: BroodsProps) {
  return round.pairs.flatMap((pair) =>
    pair.pairing.spawns.map((spawn) => (
      <div key={spawn.id} className={styles['brood']}>
        <h3>
          <Link to={`/spawns/${spawn.id}`}>{spawn.tag}</Link>: <Both pairing={pair.pairing} />
        </h3>
        <Brood pair={pair} spawn={spawn} content={content} names={names} />
      </div>
    )),
  );
}
