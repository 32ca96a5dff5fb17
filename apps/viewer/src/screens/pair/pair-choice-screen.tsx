import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, Navigate, useNavigate, useSearchParams } from 'react-router';
import { Screen } from '../../components/screen.js';
import { FishPicker } from '../../pickers/fish-picker.js';
import { damSexes, sireSexes } from '../../wording/words.js';

/** Chooses any sire and any dam; `?sire=…&dam=…` leads straight to that pair. */
export function PairChoiceScreen() {
  const [search] = useSearchParams();
  const navigate = useNavigate();
  const [sireId, setSireId] = useState(search.get('sire'));
  const [damId, setDamId] = useState(search.get('dam'));
  const givenSire = search.get('sire');
  const givenDam = search.get('dam');
  if (givenSire !== null && givenDam !== null) {
    return <Navigate to={`/pair/${givenSire}/${givenDam}`} replace />;
  }
  return (
    <Screen
      title="A pair"
      lead="Choose two fish to see what their brood would be."
      actions={<Link to="/next-pairing">Next pairing</Link>}
    >
      <form
        className="lw-filter"
        onSubmit={(event) => {
          event.preventDefault();
          if (sireId !== null && damId !== null) void navigate(`/pair/${sireId}/${damId}`);
        }}
      >
        <div className="lw-filter-text">
          <FishPicker label="Sire" value={sireId} onChange={setSireId} sexes={sireSexes} />
        </div>
        <div className="lw-filter-text">
          <FishPicker label="Dam" value={damId} onChange={setDamId} sexes={damSexes} />
        </div>
        <Button type="submit" className="lw-primary" disabled={sireId === null || damId === null}>
          Show this pair
        </Button>
      </form>
    </Screen>
  );
}
