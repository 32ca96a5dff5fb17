import { useContext, useMemo, type ReactNode } from 'react';
import { FishFace, FishPicturesContext } from '../components/fish-face.js';
import { PedigreeDrawing, type PedigreeDrawingProps } from '../drawings/index.js';
import { FishPictures } from './fish-pictures.js';

/** In a larger pedigree the nearest fish have pictures: each is a file to fetch. */
const MOST_PICTURED = 200;

/** A pedigree with small photos beside its symbols, and the chosen fish shown. */
export function PicturedPedigree(props: PedigreeDrawingProps) {
  const ids = props.fish.slice(0, MOST_PICTURED).map(({ id }) => id);
  return (
    <FishPictures ids={ids}>
      <Pictured {...props} />
    </FishPictures>
  );
}

function Pictured(props: PedigreeDrawingProps) {
  const found = useContext(FishPicturesContext);
  const pictures = useMemo(
    () =>
      new Map(
        [...found.values()].flatMap(({ fishId, photo }) =>
          photo === null ? [] : [[fishId, photo.tinyPath] as const],
        ),
      ),
    [found],
  );
  const face = (id: string): ReactNode => {
    const fish = props.fish.find((one) => one.id === id);
    if (fish === undefined || !found.has(id)) return null;
    const female = fish.sex === 'female' && { sex: 'FEMALE' as const };
    return <FishFace fish={{ id, tag: fish.tag, ...female }} size="card" />;
  };
  return <PedigreeDrawing {...props} pictures={pictures} face={face} />;
}
