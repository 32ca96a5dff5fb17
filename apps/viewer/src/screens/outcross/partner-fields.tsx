import { NativeSelect } from '@mantine/core';
import { useLookChoices } from '../line-purpose/use-look-choices.js';
import { FishPicker } from '../../pickers/fish-picker.js';
import { SeveralField } from '../../pickers/several-field.js';
import type { Sex } from '../../wording/words.js';
import { type ChosenPartner, mateSexes, oneLookPerLocus } from './chosen-partner.js';

interface PartnerFieldsProps {
  partner: ChosenPartner;
  /** Sex of the partner on record, once it is known. */
  mateOf: Sex | null;
  onChange: (part: Partial<ChosenPartner>) => void;
}

/** The partner: a fish on record, or one described by its looks; and the fish of the line, where they are not left to be chosen. */
export function PartnerFields({ partner, mateOf, onChange }: PartnerFieldsProps) {
  const { kind, partnerId, mateId, backId } = partner;
  const sex = kind === 'described' ? partner.sex : mateOf;
  return (
    <div className="lw-filter" role="group" aria-label="Partner">
      <NativeSelect
        className="lw-filter-wide"
        label="Partner"
        value={kind}
        data={[
          { value: 'on-record', label: 'a fish on record' },
          { value: 'described', label: 'a fish not on record, by its looks' },
        ]}
        onChange={(event) =>
          onChange({
            kind: event.currentTarget.value as ChosenPartner['kind'],
            ...{ mateId: null, backId: null },
          })
        }
      />
      {kind === 'described' ? (
        <DescribedFields partner={partner} onChange={onChange} />
      ) : (
        <div className="lw-filter-text">
          <FishPicker
            label="Fish from outside the line"
            value={partnerId}
            inUse
            onChange={(id) => onChange({ partnerId: id, mateId: null, backId: null })}
          />
        </div>
      )}
      <div className="lw-filter-text">
        <FishPicker
          label="Its mate of the line"
          value={mateId}
          sexes={mateSexes(sex)}
          inUse
          hint="Left empty: the one with most points for what the line is for."
          onChange={(id) => onChange({ mateId: id })}
        />
      </div>
      <div className="lw-filter-text">
        <FishPicker
          label="Fish that the young go back to"
          value={backId}
          inUse
          hint="Left empty: another of the best of the line."
          onChange={(id) => onChange({ backId: id })}
        />
      </div>
    </div>
  );
}

function DescribedFields({ partner, onChange }: Omit<PartnerFieldsProps, 'mateOf'>) {
  const { choices } = useLookChoices();
  return (
    <>
      <NativeSelect
        label="Sex"
        value={partner.sex}
        data={[
          { value: 'MALE', label: 'male' },
          { value: 'FEMALE', label: 'female' },
        ]}
        onChange={(event) =>
          onChange({ sex: event.currentTarget.value as ChosenPartner['sex'], mateId: null })
        }
      />
      <div className="lw-filter-wide">
        <SeveralField
          label="What it shows"
          none="nothing was looked at"
          choices={choices}
          value={partner.looks}
          onChange={(looks) => onChange({ looks: oneLookPerLocus(looks) })}
        />
      </div>
    </>
  );
}
