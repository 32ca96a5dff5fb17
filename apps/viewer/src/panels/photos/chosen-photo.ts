import { dayOf } from '../../wording/figures.js';
import type { PhotoSubjectChoice } from './photo-words.js';

/** A picture that was chosen, with what is said of it. */
export interface Chosen {
  readonly id: string;
  readonly file: File;
  readonly preview: string;
  readonly taken: string;
  readonly caption: string;
  /** Place of what it shows among the subjects, as a form holds it. */
  readonly subject: string;
  /** Share sent; null when not being sent. */
  readonly share: number | null;
  readonly failure: string | null;
}

/** A file just chosen: taken on the day that the file says, of the first subject. */
export const chosenOf = (file: File, id: string, preview: string): Chosen => ({
  ...{ id, file, preview, caption: '', subject: '0', share: null, failure: null },
  taken: dayOf(file.lastModified),
});

export const withChanges = (
  all: readonly Chosen[],
  id: string,
  changes: Partial<Chosen>,
): readonly Chosen[] => all.map((one) => (one.id === id ? { ...one, ...changes } : one));

/** What it is filed under; the first where none is chosen. */
export const subjectOf = (
  { subject }: Pick<Chosen, 'subject'>,
  subjects: readonly PhotoSubjectChoice[],
): PhotoSubjectChoice | undefined => subjects[Number(subject)] ?? subjects[0];
