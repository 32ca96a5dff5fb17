import { DateField, NumberField } from '../../components/fields.js';
import { FieldRow } from '../../components/record-form.js';

/** How far relationship may go, and what one round may take. */
export function RoundFields() {
  return (
    <>
      <h3 className="lw-part-title">Inbreeding</h3>
      <FieldRow>
        <NumberField
          name="ceiling"
          label="Highest F of a brood"
          unit="%"
          hint="Pairs above it are marked. 12.5 % is the F of young of half sibs."
        />
        <NumberField
          name="kinshipRise"
          label="Rise of mean kinship in a generation"
          unit="%"
          hint="Of what is left to lose; blank is no limit. 1 % is an effective size of 50 (FAO 2013)."
        />
        <NumberField
          name="inbreedingCost"
          label="Points a young loses for each 10 % of F"
          hint="Blank: as measured in your own broods, or the usual rate where that is not possible."
        />
      </FieldRow>
      <h3 className="lw-part-title">This round</h3>
      <FieldRow>
        <NumberField name="broods" label="Broods to make" />
        <NumberField name="broodsPerFish" label="Broods one fish may have" />
        <NumberField name="vessels" label="Vessels" hint="One for each brood; blank: enough." />
        <NumberField name="fry" label="Fry that can be raised" hint="In all; blank: no limit." />
        <NumberField name="keep" label="Young to keep" hint="Of all broods together." />
      </FieldRow>
      <FieldRow>
        <DateField name="earliest" label="First day for pairs" />
        <DateField name="latest" label="Last day for pairs" />
      </FieldRow>
    </>
  );
}

const PRACTICE = 'Basis: common practice of breeders; no published source.';

/** Ages and rests that pairs of the line are judged by, each with its basis. */
export function RuleFields() {
  return (
    <>
      <h3 className="lw-part-title">Ages</h3>
      <p className="lw-quiet lw-words">
        Built in: able to spawn from 84 days (12 weeks), better from 140 (20 weeks), best until 365,
        fertile until about 548 (18 months). {PRACTICE}
      </p>
      <FieldRow>
        <NumberField name="ages.capableFrom" label="Too young below" unit="days" />
        <NumberField name="ages.preferredFrom" label="Young below" unit="days" />
        <NumberField name="ages.bestUntil" label="Past its best above" unit="days" />
        <NumberField name="ages.fertileUntil" label="Often infertile above" unit="days" />
      </FieldRow>
      <h3 className="lw-part-title">Rest after a spawn</h3>
      <p className="lw-quiet lw-words">
        Built in: 7 days at least and better 14 for males, 14 and better 21 for females; for the
        welfare of the fish the longer rest is preferred. {PRACTICE} A fish that looks thin or hurt
        needs longer, whatever is set here.
      </p>
      <FieldRow>
        <NumberField name="maleRest.least" label="Male, at least" unit="days" />
        <NumberField name="maleRest.preferred" label="Male, better" unit="days" />
        <NumberField name="femaleRest.least" label="Female, at least" unit="days" />
        <NumberField name="femaleRest.preferred" label="Female, better" unit="days" />
      </FieldRow>
      <h3 className="lw-part-title">Size of the two</h3>
      <p className="lw-quiet lw-words">
        Body length of the female divided by that of the male. Built in: not checked, since nothing
        published says where to draw the line. Blank: not checked.
      </p>
      <FieldRow>
        <NumberField name="lengthLeast" label="At least" />
        <NumberField name="lengthMost" label="At most" />
      </FieldRow>
      <h3 className="lw-part-title">Known ancestors</h3>
      <p className="lw-quiet lw-words">
        Where fewer of the ancestors of four generations are on record, on either side, that F may
        be higher than shown speaks against a pair. Built in: 50 %, a guide of our own; no published
        source.
      </p>
      <FieldRow>
        <NumberField name="knownAncestry" label="On record, at least" unit="%" />
      </FieldRow>
    </>
  );
}
