import { graphql, type ResultOf } from './graphql.js';

const photoParts = graphql(`
  fragment PhotoParts on Photo {
    id
    subjectKind
    subjectId
    path
    smallPath
    takenOn
    addedAt
    caption
    width
    height
    revision
    markings {
      id
      value
      scorer
      trait {
        id
        name
        unit
      }
      marking {
        kind
        heads
        flat
        points {
          x
          y
        }
        scale {
          millimetres
          from {
            x
            y
          }
          to {
            x
            y
          }
        }
        colour {
          tolerance
          at {
            x
            y
          }
        }
      }
    }
  }
`);

export type Photo = ResultOf<typeof photoParts>;

export const FISH_PICTURES = graphql(`
  query FishPictures($fishIds: [ID!]!) {
    fishPictures(fishIds: $fishIds) {
      fishId
      photo {
        id
        tinyPath
        smallPath
        takenOn
        caption
      }
      looks {
        locusId
        phenotype
        name
      }
    }
  }
`);

export type FishPicture = ResultOf<typeof FISH_PICTURES>['fishPictures'][number];

export const FISH_PHOTOS = graphql(
  `
    query FishPhotos($id: ID!) {
      fish(id: $id) {
        id
        photos {
          ...PhotoParts
        }
        sheetScorings {
          id
          scoredOn
          withdrawn {
            at
          }
          sheet {
            id
            name
          }
        }
      }
    }
  `,
  [photoParts],
);

export const SPAWN_PHOTOS = graphql(
  `
    query SpawnPhotos($id: ID!) {
      spawn(id: $id) {
        id
        photos {
          ...PhotoParts
        }
      }
    }
  `,
  [photoParts],
);

export const SCORE_FROM_PICTURE = graphql(`
  mutation ScoreFromPicture($input: ScoreFromPictureInput!) {
    scoreFromPicture(input: $input) {
      id
      value
    }
  }
`);

export const MARKING_ERROR = graphql(`
  query MarkingError($traitId: ID!) {
    markingError(traitId: $traitId) {
      deviation
      repeatability
      pictures
      markings
      byTwoPeople
    }
  }
`);

export type MarkingError = NonNullable<ResultOf<typeof MARKING_ERROR>['markingError']>;
export type MarkedScore = Photo['markings'][number];

export const CAPTION_PHOTO = graphql(`
  mutation CaptionPhoto($input: CaptionPhotoInput!) {
    captionPhoto(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_PHOTO = graphql(`
  mutation WithdrawPhoto($input: WithdrawInput!) {
    withdrawPhoto(input: $input) {
      id
    }
  }
`);

export interface PhotoToSend {
  /** Made once for a chosen file, so that sending again records it once. */
  id: string;
  file: Blob;
  kind: 'fish' | 'spawn' | 'spawn_event' | 'sheet_scoring';
  of: string;
  taken: string;
  caption: string;
}

const UNREACHABLE =
  'Linewright did not answer while the picture was sent. It is kept here: check the connection, then try again.';

function refusal(text: string): string {
  try {
    const answer = JSON.parse(text) as { message?: unknown };
    return typeof answer.message === 'string' ? answer.message : UNREACHABLE;
  } catch {
    return UNREACHABLE;
  }
}

/** Sends a picture; `onProgress` is told the share sent. Resolves to null, or to what went wrong in words. */
export function sendPhoto(
  photo: PhotoToSend,
  onProgress: (share: number) => void,
): Promise<string | null> {
  const query = new URLSearchParams({ kind: photo.kind, of: photo.of });
  if (photo.taken !== '') query.set('taken', photo.taken);
  if (photo.caption.trim() !== '') query.set('caption', photo.caption.trim());
  // Fetch does not tell how much was sent.
  const request = new XMLHttpRequest();
  return new Promise((resolve) => {
    request.open('PUT', `/photos/${photo.id}?${query.toString()}`);
    request.setRequestHeader('content-type', photo.file.type || 'application/octet-stream');
    request.upload.onprogress = ({ loaded, total, lengthComputable }) => {
      if (lengthComputable) onProgress(loaded / total);
    };
    request.onload = () => resolve(request.status === 200 ? null : refusal(request.responseText));
    request.onerror = () => resolve(UNREACHABLE);
    request.ontimeout = () => resolve(UNREACHABLE);
    request.timeout = 300_000;
    request.send(photo.file);
  });
}
