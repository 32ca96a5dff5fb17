import { Button } from '@mantine/core';
import { useState } from 'react';
import { FISH_NAME } from '../../api/fish.js';
import { useRead } from '../../api/use-read.js';
import { FishPicker } from '../../pickers/fish-picker.js';
import { wishOf, type Wish, type WishedFish } from './proposal-wishes.js';

interface WishFormProps {
  lineId: string;
  onWish: (wish: Wish) => void;
}

/** Asks for a fish, or a pair, that somebody has in mind and that is not proposed. */
export function WishForm({ lineId, onWish }: WishFormProps) {
  const sire = useNamedFish();
  const dam = useNamedFish();
  const wish = wishOf(sire, dam);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (wish === null) return;
        onWish(wish);
        sire.choose(null);
        dam.choose(null);
      }}
    >
      <h3>Another fish or pair in mind?</h3>
      <p className="lw-quiet lw-words">
        Choose one fish, or a male and a female. The pairs are chosen again around it, and what that
        costs is told.
      </p>
      <div className="lw-filter">
        {(
          [
            ['Male you want to use', ['MALE'], sire],
            ['Female you want to use', ['FEMALE'], dam],
          ] as const
        ).map(([label, sexes, { id, choose }]) => (
          <div key={label} className="lw-filter-text">
            <FishPicker
              {...{ label, value: id, onChange: choose }}
              sexes={[...sexes]}
              lineIds={[lineId]}
              inUse
            />
          </div>
        ))}
        <Button type="submit" disabled={wish === null}>
          Use in the pairs
        </Button>
      </div>
    </form>
  );
}

interface NamedFish {
  /** The fish chosen; null: none. */
  readonly id: string | null;
  /** With its tag, once that is known. */
  readonly named: WishedFish | null;
  readonly choose: (id: string | null) => void;
}

function useNamedFish(): NamedFish {
  const [id, choose] = useState<string | null>(null);
  const { data } = useRead(FISH_NAME, { id: id ?? '' }, { pause: id === null });
  return { id, choose, named: data?.fish.id === id && id !== null ? data.fish : null };
}
