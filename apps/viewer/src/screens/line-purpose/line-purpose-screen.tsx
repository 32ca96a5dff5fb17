import { Link, useParams } from 'react-router';
import { LINE_PURPOSE, type PurposeLine, type PurposeTrait } from '../../api/line-purpose.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { OwnLine } from '../lines/own-line.js';
import { showTime } from '../../wording/figures.js';
import { rememberLine } from '../next-pairing/last-line.js';
import { PurposeForm } from './purpose-form.js';
import { PurposeVersions } from './purpose-versions.js';
import { useLookChoices } from './use-look-choices.js';

/** What a line is for: said here, kept in versions, and used wherever its pairs are judged. */
export function LinePurposeScreen() {
  const { id = '' } = useParams();
  return (
    <OwnLine lineId={id} title="What the line is for">
      <Purpose id={id} />
    </OwnLine>
  );
}

function Purpose({ id }: { id: string }) {
  const read = useRead(LINE_PURPOSE, { id });
  return (
    <Shown read={read} what="what the line is for">
      {({ line, traits }) => <PurposePage key={line.id} line={line} traits={traits} />}
    </Shown>
  );
}

function PurposePage({ line, traits }: { line: PurposeLine; traits: readonly PurposeTrait[] }) {
  const looks = useLookChoices();
  const { version, at, by } = line.purpose;
  return (
    <Screen
      title={`What ${line.code} is for`}
      lead={
        version === 0
          ? 'Nobody has said it yet. Until then pairs of the line are ordered by kinship alone.'
          : `Version ${version}, ${at === null ? '' : showTime(at)}, ${by ?? ''}`
      }
      actions={
        <>
          <Link className="lw-link-button" to={`/lines/${line.id}`}>
            Line {line.code}
          </Link>
          <Link
            className="lw-link-button"
            to="/next-pairing"
            onClick={() => rememberLine([line.id])}
          >
            Next pairing
          </Link>
        </>
      }
    >
      {line.withdrawn === null ? (
        <Section title="What it is for">
          <PurposeForm line={line} traits={traits} looks={looks} />
        </Section>
      ) : (
        <p className="lw-words">
          This line was withdrawn: what it was for can be read, not changed.
        </p>
      )}
      <PurposeVersions line={line} names={looks.names} />
    </Screen>
  );
}
