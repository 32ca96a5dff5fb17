import { Button } from '@mantine/core';
import { useContext, useState } from 'react';
import { type Comment, COMMENTS, type CommentSubject, WITHDRAW_COMMENT } from '../api/comments.js';
import { useRead } from '../api/use-read.js';
import { MorePages } from '../components/more-pages.js';
import { Section } from '../components/section.js';
import { Sheet } from '../components/sheet.js';
import { Shown } from '../components/states.js';
import { WithdrawRecord } from '../components/withdraw-record.js';
import { SessionContext } from '../session/session-context.js';
import { showTime } from '../wording/figures.js';
import { CommentForm } from './comment-form.js';

type Opened =
  | { readonly kind: 'new' }
  | { readonly kind: 'correct' | 'withdraw'; readonly comment: Comment };

interface CommentsSectionProps {
  subject: CommentSubject;
  /** Such as "fish T24-07-12". */
  of: string;
}

/** What those who may look at a fish or a spawn said of it. It stays on this server. */
export function CommentsSection({ subject, of }: CommentsSectionProps) {
  const [opened, setOpened] = useState<Opened | null>(null);
  const close = () => setOpened(null);
  const looking = useContext(SessionContext)?.looking === true;
  return (
    <Section
      title="Comments"
      act={!looking}
      actions={
        <Button size="xs" onClick={() => setOpened({ kind: 'new' })}>
          Comment
        </Button>
      }
    >
      <Comments subject={subject} onOpen={setOpened} />
      <Sheet
        title={opened?.kind === 'correct' ? 'Correct your comment' : `Comment on ${of}`}
        opened={opened !== null && opened.kind !== 'withdraw'}
        onClose={close}
      >
        {opened?.kind === 'correct' ? (
          <CommentForm subject={subject} comment={opened.comment} onDone={close} />
        ) : (
          <CommentForm subject={subject} onDone={close} />
        )}
      </Sheet>
      {opened?.kind === 'withdraw' && (
        <WithdrawRecord
          mutation={WITHDRAW_COMMENT}
          record={opened.comment}
          title="Withdraw your comment"
          what="your comment"
          onClose={close}
        />
      )}
    </Section>
  );
}

interface CommentsProps {
  subject: CommentSubject;
  onOpen: (opened: Opened) => void;
  after?: string | null;
  before?: number;
}

function Comments({ subject, onOpen, after = null, before = 0 }: CommentsProps) {
  const read = useRead(COMMENTS, { ...subject, after });
  return (
    <Shown read={read} what="the comments">
      {({ comments }) => (
        <>
          {comments.totalCount === 0 && (
            <p className="lw-quiet">
              None yet. Whoever may look here can write one, and sees those of the others.
            </p>
          )}
          <ul className="lw-judged">
            {comments.edges.map(({ node }) => (
              <OneComment key={node.id} comment={node} onOpen={onOpen} />
            ))}
          </ul>
          <MorePages
            page={comments}
            listed={before + comments.edges.length}
            what="comments"
            next={(cursor) => (
              <Comments
                subject={subject}
                onOpen={onOpen}
                after={cursor}
                before={before + comments.edges.length}
              />
            )}
          />
        </>
      )}
    </Shown>
  );
}

function OneComment({ comment, onOpen }: { comment: Comment; onOpen: (opened: Opened) => void }) {
  return (
    <li>
      <p className="lw-words">{comment.words}</p>
      <p className="lw-quiet">
        {comment.person.name}, {showTime(comment.writtenAt)}
        {comment.revision > 1 && ', corrected'}
      </p>
      {comment.mine && (
        <div className="lw-form-buttons">
          <Button size="xs" onClick={() => onOpen({ kind: 'correct', comment })}>
            Correct
          </Button>
          <Button size="xs" onClick={() => onOpen({ kind: 'withdraw', comment })}>
            Withdraw
          </Button>
        </div>
      )}
    </li>
  );
}
