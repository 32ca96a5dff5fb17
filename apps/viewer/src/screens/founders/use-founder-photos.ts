import { useState } from 'react';
import { newId } from '../../api/new-id.js';
import { sendPhoto } from '../../api/photos.js';
import { useUnsaved } from '../../components/unsaved.js';
import { dayOf } from '../../wording/figures.js';
import type { FounderRow } from './founder-rows.js';

interface ChosenPhoto {
  /** Made once, so that sending again records it once. */
  readonly id: string;
  readonly fishId: string;
  readonly file: File;
}

interface NotSent extends ChosenPhoto {
  readonly tag: string;
  readonly why: string;
}

type Founder = Pick<FounderRow, 'id' | 'tag'>;

export interface FounderPhotos {
  readonly nameOf: (fishId: string) => string | null;
  readonly choose: (fishId: string, file: File | null) => void;
  readonly sending: boolean;
  /** Those that the server did not take, though the fish are saved. */
  readonly notSent: readonly NotSent[];
  /** Sends what was chosen for these fish; false when any is left. */
  readonly send: (fish: readonly Founder[]) => Promise<boolean>;
  readonly sendAgain: () => Promise<boolean>;
}

/** One picture a founder: chosen in the form, sent once the fish are saved. */
export function useFounderPhotos(): FounderPhotos {
  const [chosen, setChosen] = useState<readonly ChosenPhoto[]>([]);
  const [sending, setSending] = useState(false);
  const [notSent, setNotSent] = useState<readonly NotSent[]>([]);
  useUnsaved(sending || notSent.length > 0);
  const sendAll = async (photos: readonly (ChosenPhoto & { tag: string })[]) => {
    if (photos.length === 0) return true;
    setSending(true);
    const left: NotSent[] = [];
    for (const photo of photos) {
      const { id, file, fishId: of } = photo;
      const taken = dayOf(file.lastModified);
      const why = await sendPhoto({ id, file, kind: 'fish', of, taken, caption: '' }, () => {});
      if (why !== null) left.push({ ...photo, why });
    }
    setSending(false);
    setNotSent(left);
    return left.length === 0;
  };
  return {
    nameOf: (fishId) => chosen.find((one) => one.fishId === fishId)?.file.name ?? null,
    choose: (fishId, file) =>
      setChosen((all) => [
        ...all.filter((one) => one.fishId !== fishId),
        ...(file === null ? [] : [{ id: newId(), fishId, file }]),
      ]),
    sending,
    notSent,
    send: (fish) =>
      sendAll(
        fish.flatMap(({ id, tag }) =>
          chosen.filter(({ fishId }) => fishId === id).map((photo) => ({ ...photo, tag })),
        ),
      ),
    sendAgain: () => sendAll(notSent),
  };
}
