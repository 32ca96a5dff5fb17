import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { TraitsTogether } from './traits-together.js';

interface NamedTrait {
  readonly id: string;
  readonly name: string;
}

interface OtherTraitProps {
  trait: NamedTrait;
  /** Traits to choose from; the trait itself is passed over. */
  traits: readonly NamedTrait[];
  fish?: { readonly id: string; readonly tag: string };
}

/** A trait beside another that is chosen here. Nothing is worked out before. */
export function OtherTrait({ trait, traits, fish }: OtherTraitProps) {
  const [chosen, setChosen] = useState('');
  const others = traits.filter(({ id }) => id !== trait.id);
  const other = others.find(({ id }) => id === chosen);
  return (
    <>
      <NativeSelect
        label="Other trait"
        value={chosen}
        data={[
          { value: '', label: 'Choose one' },
          ...others.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(event) => setChosen(event.currentTarget.value)}
      />
      {other !== undefined && (
        <TraitsTogether
          key={other.id}
          trait={trait}
          other={other}
          {...(fish !== undefined && { fish })}
        />
      )}
    </>
  );
}
