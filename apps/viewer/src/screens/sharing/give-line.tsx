import { Checkbox, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { LINE_GRANTS, type Grant } from '../../api/grants.js';
import type { ResultOf } from '../../api/graphql.js';
import type { LINES } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { Caution } from '../../components/notice.js';
import { Shown } from '../../components/states.js';
import { LEVELS, PART_NAMES, PARTS, partsSeen } from '../lines/grant-words.js';
import { type Chosen, EVERYTHING, giveAddress, isWhole } from './give-address.js';

type Line = ResultOf<typeof LINES>['lines'][number];

interface GiveLineProps {
  line: Line;
  setChosen: (id: string) => void;
  lines: readonly Line[];
}

/** A line as a file: for a partner with what is shared with them, or for anyone with what is ticked. */
export function GiveLine({ line, setChosen, lines }: GiveLineProps) {
  return (
    <>
      <p className="lw-words">
        The file keeps every record’s identity, so that later files join up, and it is signed, so
        that whoever gets it sees that it came from you as it is. A page in it, read-me.html, can be
        read without any program. <strong>Whoever has the file can read all of it.</strong>
      </p>
      <div className="lw-form">
        <NativeSelect
          label="Line to give"
          value={line.id}
          onChange={(event) => setChosen(event.currentTarget.value)}
          data={lines.map(({ id, code, name }) => ({ value: id, label: `${code} · ${name}` }))}
        />
        <ForWhom key={line.id} line={line} />
      </div>
      <Caution>
        With live fish, tell the partner of any disease seen, and have them kept apart on arrival.
        The law of your place says who may sell fish, give them away or send them: ask first.{' '}
        <Link to="/cautions">All cautions</Link>
      </Caution>
    </>
  );
}

const ANYONE = '';

function ForWhom({ line }: { line: Line }) {
  const read = useRead(LINE_GRANTS, { lineId: line.id });
  const [whom, setWhom] = useState(ANYONE);
  const [chosen, setChosen] = useState<Chosen>(EVERYTHING);
  return (
    <Shown read={read} what="the partners">
      {({ lineGrants }) => {
        const grant = lineGrants.find(({ person }) => person.id === whom) ?? null;
        return (
          <>
            <div className="lw-form">
              <NativeSelect
                label="For whom"
                value={grant === null ? ANYONE : whom}
                onChange={(event) => setWhom(event.currentTarget.value)}
                data={[
                  { value: ANYONE, label: 'anyone: I choose what goes along' },
                  ...lineGrants.map(({ person }) => ({
                    value: person.id,
                    label: `${person.name}: what is shared with them`,
                  })),
                ]}
              />
              {grant === null ? <Parts chosen={chosen} onChosen={setChosen} /> : null}
            </div>
            {grant !== null && <Granted grant={grant} line={line} />}
            <p>
              <a
                href={giveAddress(line.id, grant?.person.id ?? null, chosen)}
                download={`${line.code}.zip`}
              >
                Download the file of {line.code}
                {grant === null ? '' : ` for ${grant.person.name}`}
              </a>
            </p>
          </>
        );
      }}
    </Shown>
  );
}

function Granted({ grant, line }: { grant: Grant; line: Line }) {
  return (
    <p className="lw-words">
      It holds what {grant.person.name} sees of this line ({LEVELS[grant.level].toLowerCase()}, with{' '}
      {partsSeen(grant)}), and ancestors outside of it
      {grant.ancestors ? '' : ' without their names'}. If they have an install that is paired with
      this one, no other install takes the file in. What is shared is changed on the{' '}
      <Link to={`/lines/${line.id}`}>page of the line</Link>, and can be looked at there as they see
      it.
    </p>
  );
}

function Parts({ chosen, onChosen }: { chosen: Chosen; onChosen: (chosen: Chosen) => void }) {
  const { parts, ancestors, plans } = chosen;
  const whole = isWhole(chosen);
  return (
    <div className="lw-form" role="group" aria-label="Beside fish, spawns and pedigree">
      <p className="lw-quiet">Beside fish, spawns and pedigree:</p>
      {PARTS.map((part) => (
        <Checkbox
          key={part}
          label={PART_NAMES[part]}
          checked={parts.includes(part)}
          onChange={(event) => {
            const wanted = event.currentTarget.checked;
            onChosen({
              ...chosen,
              parts: PARTS.filter((one) => (one === part ? wanted : parts.includes(one))),
            });
          }}
        />
      ))}
      <Checkbox
        label="Names of ancestors outside the line"
        description="Without them they stand in as unnamed fish, so that F is whole."
        checked={ancestors}
        onChange={(event) => onChosen({ ...chosen, ancestors: event.currentTarget.checked })}
      />
      {whole && (
        <Checkbox
          label="Your care plan of the line"
          checked={plans}
          onChange={(event) => onChosen({ ...chosen, plans: event.currentTarget.checked })}
        />
      )}
      <p className="lw-quiet">
        {whole
          ? 'Planned pairs, traits, sheets and loci that the records use go along.'
          : 'Planned pairs stay here; with care and water goes your care plan of the line.'}{' '}
        What the line is for, its plan and its rounds never go along.
      </p>
    </div>
  );
}
