import { useState } from 'react';
import { useSave } from '../../api/use-save.js';
import { MOVE_TO_VESSEL, type Vessel } from '../../api/vessels.js';
import type { Problem } from '../../api/problem.js';

/** Who is picked up: a fish or a spawn, and what it is called. */
export interface Carried {
  readonly fishId?: string;
  readonly spawnId?: string;
  readonly words: string;
}

export type Company = NonNullable<Vessel['stays'][number]['company']>;
type Where = Pick<Vessel, 'id' | 'code'>;

/** Picks up, puts down, and asks before two are in one vessel. */
export function useMoves(onMoved: () => void) {
  const [carried, setCarried] = useState<Carried | null>(null);
  const [moved, setMoved] = useState<string | null>(null);
  const [asked, setAsked] = useState<{ who: Carried; to: Where; message: string } | null>(null);
  const { save, saving, problem, clear } = useSave(MOVE_TO_VESSEL);
  const occupied = problem?.code === 'VESSEL_OCCUPIED';
  const send = async (who: Carried, to: Where | null, company: Company | null) => {
    const done = await save({
      input: {
        vesselId: to?.id ?? null,
        fishIds: who.fishId === undefined ? [] : [who.fishId],
        spawnIds: who.spawnId === undefined ? [] : [who.spawnId],
        company,
      },
    });
    if (done === null) return;
    setCarried(null);
    setAsked(null);
    setMoved(
      to === null ? `${who.words} was taken out of its vessel.` : `${who.words} is in ${to.code}.`,
    );
    onMoved();
  };
  const put = (to: Where, who = carried) => {
    if (who === null) return Promise.resolve();
    setAsked({ who, to, message: '' });
    return send(who, to, null);
  };
  return {
    ...{ carried, moved, saving, put },
    carry: (who: Carried) => {
      clear();
      setMoved(null);
      setCarried(who);
    },
    drop: () => setCarried(null),
    takeOut: (who: Carried) => send(who, null, null),
    /** Set while it is asked why several are to be together. */
    asking: occupied && asked !== null ? { ...asked, message: problem.message } : null,
    answer: (company: Company) =>
      asked === null ? Promise.resolve() : send(asked.who, asked.to, company),
    refuse: () => {
      clear();
      setAsked(null);
    },
    problem: occupied ? null : (problem as Problem | null),
  };
}

export type Moves = ReturnType<typeof useMoves>;
