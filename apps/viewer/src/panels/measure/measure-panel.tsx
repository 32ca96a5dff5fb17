import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import type { Photo } from '../../api/photos.js';
import { TRAITS, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { Empty, Shown } from '../../components/states.js';
import { MarkPicture } from './mark-picture.js';
import { kindFor } from './marking-draft.js';

interface MeasurePanelProps {
  photo: Photo;
  of: string;
  onSaved: () => void;
  onClose: () => void;
}

/** Measures a trait on a picture of a fish: choose which, mark its points, and it is scored. */
export function MeasurePanel(props: MeasurePanelProps) {
  const read = useRead(TRAITS, { includeWithdrawn: false });
  return (
    <>
      <Shown read={read} what="the traits">
        {({ traits }) => (
          <Measurable {...props} traits={traits.filter((one) => kindFor(one) !== null)} />
        )}
      </Shown>
      <Button onClick={props.onClose}>Back to the photo</Button>
    </>
  );
}

function Measurable({ traits, ...props }: MeasurePanelProps & { traits: readonly Trait[] }) {
  const [traitId, setTraitId] = useState(traits[0]?.id ?? '');
  const trait = traits.find(({ id }) => id === traitId);
  if (props.photo.takenOn === null)
    return (
      <Empty>
        It is not on record when this picture was taken, and a score has a day: give it its day
        under “Caption” first.
      </Empty>
    );
  if (trait === undefined)
    return (
      <Empty>
        No trait is measured in degrees (°), millimetres (mm) or per cent (%), or counted: define
        one under “Traits” first.
      </Empty>
    );
  return (
    <>
      <NativeSelect
        label="What to measure"
        value={trait.id}
        data={traits.map(({ id, name, unit }) => ({
          value: id,
          label: unit === null ? name : `${name} (${unit})`,
        }))}
        onChange={(event) => setTraitId(event.currentTarget.value)}
      />
      <MarkPicture key={trait.id} {...props} trait={trait} />
    </>
  );
}
