import { useEffect, useRef, useState } from 'react';
import { newId } from '../../api/new-id.js';
import { sendPhoto } from '../../api/photos.js';
import { useUnsaved } from '../../components/unsaved.js';
import { type Chosen, chosenOf, subjectOf, withChanges } from './chosen-photo.js';
import type { PhotoSubjectChoice } from './photo-words.js';

export interface ChosenPhotos {
  readonly chosen: readonly Chosen[];
  /** How many were sent since pictures were chosen last. */
  readonly sent: number;
  readonly choose: (files: FileList | null) => void;
  readonly change: (id: string, changes: Partial<Chosen>) => void;
  readonly leaveOut: (id: string) => void;
  readonly send: (one: Chosen) => Promise<void>;
}

/** Pictures that were chosen and are not sent yet; one that failed stays until it is sent or left out. */
export function useChosenPhotos(
  subjects: readonly PhotoSubjectChoice[],
  onSent: () => void,
): ChosenPhotos {
  const [chosen, setChosen] = useState<readonly Chosen[]>([]);
  const [sent, setSent] = useState(0);
  useForgottenPreviews(chosen);
  useUnsaved(chosen.length > 0);
  const change = (id: string, changes: Partial<Chosen>) =>
    setChosen((all) => withChanges(all, id, changes));
  const leaveOut = (id: string) => setChosen((all) => all.filter((one) => one.id !== id));
  const choose = (files: FileList | null) => {
    setSent(0);
    const more = [...(files ?? [])].map((file) =>
      chosenOf(file, newId(), URL.createObjectURL(file)),
    );
    setChosen((all) => [...all, ...more]);
  };
  const send = async (one: Chosen) => {
    const subject = subjectOf(one, subjects);
    if (subject === undefined) return;
    const { id, file, taken, caption } = one;
    change(id, { share: 0, failure: null });
    const photo = { id, file, taken, caption, kind: subject.kind, of: subject.id };
    const failure = await sendPhoto(photo, (share) => change(id, { share }));
    if (failure !== null) {
      change(id, { share: null, failure });
      return;
    }
    leaveOut(id);
    setSent((count) => count + 1);
    onSent();
  };
  return { chosen, sent, choose, change, leaveOut, send };
}

/** Frees the previews of pictures that are no longer chosen. */
function useForgottenPreviews(chosen: readonly Chosen[]) {
  const held = useRef(new Set<string>());
  useEffect(() => {
    const now = new Set(chosen.map((one) => one.preview));
    for (const preview of held.current) if (!now.has(preview)) URL.revokeObjectURL(preview);
    held.current = now;
  }, [chosen]);
}
