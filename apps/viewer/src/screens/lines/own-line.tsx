import type { ReactNode } from 'react';
import { Link } from 'react-router';
import { LINE } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Shown } from '../../components/states.js';
import { MayChangeContext } from '../../session/may.js';

interface OwnLineProps {
  lineId: string;
  /** What is behind it, as a title: "What T is for". */
  title: string;
  children: ReactNode;
}

/** Around a screen of what is never shared of a line: for whoever only looks at the line, that, in place of questions that nobody would answer. */
export function OwnLine({ lineId, title, children }: OwnLineProps) {
  const read = useRead(LINE, { id: lineId });
  return (
    <Shown read={read} what="the line">
      {({ line }) =>
        line.mayChange ? (
          <MayChangeContext value>{children}</MayChangeContext>
        ) : (
          <Screen
            title={title}
            links={
              <Link className="lw-link-button" to={`/lines/${lineId}`}>
                Line {line.code}
              </Link>
            }
          >
            <p className="lw-words">
              What line {line.code} is for, its plan and its rounds are not shared with you: only
              those who keep the line see them.
            </p>
          </Screen>
        )
      }
    </Shown>
  );
}
