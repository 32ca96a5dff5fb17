import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import {
  ADD_COMMENT,
  type Comment,
  type CommentSubject,
  CORRECT_COMMENT,
} from '../api/comments.js';
import { useSave } from '../api/use-save.js';
import { requiredText } from '../components/field-rules.js';
import { LongTextField } from '../components/fields.js';
import { RecordForm } from '../components/record-form.js';

const schema = z.object({ words: requiredText('Write something first.') });

interface CommentFormProps {
  subject: CommentSubject;
  /** One's own, to be corrected; absent for a new one. */
  comment?: Comment;
  onDone: () => void;
}

export function CommentForm({ subject, comment, onDone }: CommentFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { words: comment?.words ?? '' },
  });
  const adding = useSave(ADD_COMMENT);
  const correcting = useSave(CORRECT_COMMENT);
  const { saving, problem } = comment === undefined ? adding : correcting;
  const send = (words: string) =>
    comment === undefined
      ? adding.save({ input: { ...subject, words } })
      : correcting.save({ input: { id: comment.id, revision: comment.revision, words } });
  return (
    <RecordForm
      form={form}
      submit={comment === undefined ? 'Write it' : 'Save'}
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async ({ words }) => {
        if ((await send(words)) !== null) onDone();
      }}
    >
      <LongTextField
        name="words"
        label="Comment"
        hint="Everybody who may look here reads it, with your name where they know you."
        required
      />
    </RecordForm>
  );
}
