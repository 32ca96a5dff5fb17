import type { HandOver } from '../api/hand-overs.js';

export const kindWord: Record<HandOver['kind'], string> = {
  GIFT: 'given',
  SALE: 'sold',
  LOAN: 'lent',
};

type Named = Pick<HandOver, 'kind' | 'side' | 'toName' | 'backOn'> & { from: { name: string } };

/** What is needed of a hand-over to say how far it is. */
type Standing = Named &
  Pick<HandOver, 'state' | 'offeredOn' | 'answeredOn' | 'movedOn' | 'returnAs' | 'returnSaidOn'> &
  Pick<HandOver, 'endedOn' | 'endedAs'>;

const offerWords: Record<HandOver['kind'], string> = {
  GIFT: 'as a gift',
  SALE: 'for sale',
  LOAN: 'on loan',
};

/** "on loan with Runa until 2026-12-20", as the side that looks calls it. */
export function loanWords({ side, toName, from, backOn }: Named): string {
  const who = side === 'RECEIVER' ? `from ${from.name}` : `with ${toName}`;
  return `on loan ${who} until ${backOn ?? ''}`;
}

function movedWords(handOver: Named & Pick<HandOver, 'movedOn'>): string {
  const { kind, side, toName, from, movedOn } = handOver;
  const to = side === 'RECEIVER' ? `to you by ${from.name}` : `to ${toName}`;
  const since = movedOn === null ? '' : ` on ${movedOn}`;
  return kind === 'LOAN'
    ? `${loanWords(handOver)}, since ${movedOn ?? ''}`
    : `${kindWord[kind]} ${to}${since}`;
}

const ENDS: Record<NonNullable<HandOver['endedAs']>, string> = {
  CAME_BACK: 'came back',
  DIED: 'died there',
  KEPT: 'was made a lasting hand-over',
  HANDED_ON: 'was handed on',
};

function answeredWords({ state, side, toName, from, answeredOn }: Standing): string {
  const who = side === 'RECEIVER' ? 'you' : toName;
  const on = answeredOn === null ? '' : ` on ${answeredOn}`;
  return state === 'DECLINED'
    ? `declined by ${who}${on}`
    : `accepted by ${who}${on}; it moves once the install of ${from.name} has read the answer`;
}

function returningWords(handOver: Standing): string {
  const who = handOver.side === 'RECEIVER' ? 'you' : handOver.toName;
  const what = handOver.returnAs === 'DIED' ? 'died' : 'comes back';
  return `${loanWords(handOver)}; by the word of ${who} it ${what} (${handOver.returnSaidOn ?? ''})`;
}

/** How far a hand-over is, for whoever looks. */
export function stateWords(handOver: Standing): string {
  const { state, side, toName, from, kind, offeredOn, endedOn, endedAs } = handOver;
  switch (state) {
    case 'OFFERED': {
      const between = side === 'RECEIVER' ? `to you by ${from.name}` : `to ${toName}`;
      return `offered ${between} ${offerWords[kind]} on ${offeredOn}, no answer yet`;
    }
    case 'TAKEN_BACK':
      return `offered on ${offeredOn}, taken back`;
    case 'DECLINED':
    case 'AGREED':
      return answeredWords(handOver);
    case 'MOVED':
      return movedWords(handOver);
    case 'RETURNING':
      return returningWords(handOver);
    case 'ENDED':
      return `${movedWords(handOver)}; ${endedAs === null ? 'ended' : ENDS[endedAs]} on ${endedOn ?? ''}`;
  }
}

/** What of the record goes along, in words; `null` for nothing beside the record itself. */
export function partsWords({ withScores, withPhotos, withNotes }: HandOver): string {
  const parts = [
    ...(withScores ? ['scores'] : []),
    ...(withPhotos ? ['photos'] : []),
    ...(withNotes ? ['notes'] : []),
  ];
  return parts.length === 0 ? 'the record alone' : `the record with its ${parts.join(', ')}`;
}

/** Hand-overs that were offered together and stand alike, in the order in which they came. */
export function offeredTogether<One extends Pick<HandOver, 'groupId' | 'state' | 'kind'>>(
  handOvers: readonly One[],
): One[][] {
  const groups = new Map<string, One[]>();
  for (const one of handOvers) {
    // A loan comes back fish by fish.
    const alone = one.kind === 'LOAN' && one.state !== 'OFFERED';
    const key = `${one.groupId} ${one.state}${alone ? ` ${groups.size}` : ''}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}
