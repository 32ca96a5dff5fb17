import type { Photo, PhotoToSend } from '../../api/photos.js';
import { dayOf } from '../../wording/figures.js';

/** What a picture may be filed under on this page, the fish or spawn itself first. */
export interface PhotoSubjectChoice {
  kind: PhotoToSend['kind'];
  id: string;
  label: string;
}

/** What a picture shows, in words: its caption, or whose it is and from when. */
export function photoWords(photo: Photo, of: string): string {
  return photo.caption ?? `Photo of ${of} on ${photo.takenOn ?? dayOf(photo.addedAt)}`;
}
