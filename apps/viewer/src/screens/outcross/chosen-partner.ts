import type { Sex } from '../../wording/words.js';

/** The partner that is looked at, as the address of the page says it. */
export interface ChosenPartner {
  readonly kind: 'on-record' | 'described';
  readonly partnerId: string | null;
  readonly sex: 'MALE' | 'FEMALE';
  /** Looks of a described fish, each as locus and id: "dt:double". */
  readonly looks: readonly string[];
  /** Fish of the line, where they are not left to be chosen. */
  readonly mateId: string | null;
  readonly backId: string | null;
}

export const partnerOf = (search: URLSearchParams): ChosenPartner => ({
  kind: search.has('sex') ? 'described' : 'on-record',
  partnerId: search.get('partner'),
  sex: search.get('sex') === 'male' ? 'MALE' : 'FEMALE',
  looks: search.getAll('look'),
  mateId: search.get('mate'),
  backId: search.get('back'),
});

export const addressOf = ({
  kind,
  partnerId,
  sex,
  looks,
  mateId,
  backId,
}: ChosenPartner): URLSearchParams => {
  const search = new URLSearchParams();
  if (kind === 'described') {
    search.set('sex', sex.toLowerCase());
    for (const look of looks) search.append('look', look);
  } else if (partnerId !== null) search.set('partner', partnerId);
  if (mateId !== null) search.set('mate', mateId);
  if (backId !== null) search.set('back', backId);
  return search;
};

/** Where the page of an outcross of a line to a fish on record is; what is not named is chosen there. */
export const outcrossPath = (
  lineId: string,
  { partnerId, mateId = null, backId = null }: PartnerOnRecord,
): string => {
  const search = addressOf({
    ...{ kind: 'on-record', partnerId, mateId, backId },
    ...{ sex: 'FEMALE', looks: [] },
  });
  return `/lines/${lineId}/outcross?${search.toString()}`;
};

interface PartnerOnRecord {
  readonly partnerId: string;
  readonly mateId?: string | null;
  readonly backId?: string | null;
}

/** An outcross of a fish that its pedigree shows as a branch. */
export interface OutcrossBranch {
  readonly lineId: string;
  readonly partnerId: string;
  readonly backId: string;
}

/** Where the pedigree of `mateId` with that branch is. */
export const branchPath = (mateId: string, { lineId, partnerId, backId }: OutcrossBranch): string =>
  `/fish/${mateId}/pedigree?${new URLSearchParams({ outcross: partnerId, back: backId, line: lineId }).toString()}`;

/** The branch that the address of a pedigree names; null where it names none. */
export const branchIn = (search: URLSearchParams): OutcrossBranch | null => {
  const [lineId, partnerId, backId] = ['line', 'outcross', 'back'].map((key) => search.get(key));
  return lineId == null || partnerId == null || backId == null
    ? null
    : { lineId, partnerId, backId };
};

/** A look of each locus once: the one chosen last stands. */
export const oneLookPerLocus = (looks: readonly string[]): string[] => {
  const last = new Map(looks.map((look) => [look.split(':')[0] ?? '', look]));
  return [...last.values()];
};

/** What is asked of the API; null while no partner is chosen. */
export const askedOf = (lineId: string, partner: ChosenPartner) => {
  const { kind, partnerId, sex, looks, mateId, backId } = partner;
  if (kind === 'on-record' && partnerId === null) return null;
  return {
    lineId,
    ...(kind === 'on-record'
      ? { partnerId }
      : {
          described: {
            sex,
            shows: looks.map((look) => {
              const [locusId = '', ...phenotype] = look.split(':');
              return { locusId, phenotype: phenotype.join(':') };
            }),
          },
        }),
    ...(mateId !== null && { mateId }),
    ...(backId !== null && { backId }),
  };
};

/** Sexes that the mate of the partner can have. */
export const mateSexes = (partner: Sex | null): Sex[] =>
  partner === 'MALE' ? ['FEMALE'] : partner === 'FEMALE' ? ['MALE'] : ['MALE', 'FEMALE'];
