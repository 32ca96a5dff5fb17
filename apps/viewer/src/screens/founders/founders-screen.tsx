import { useNavigate, useSearchParams } from 'react-router';
import { Screen } from '../../components/screen.js';
import { FoundersForm } from './founders-form.js';

/** Several fish that came together, recorded at once. */
export function FoundersScreen() {
  const [search] = useSearchParams();
  const navigate = useNavigate();
  const lineId = search.get('line') ?? '';
  const leave = (): void => void navigate(lineId === '' ? '/fish' : `/lines/${lineId}`);
  return (
    <Screen
      title="Founders"
      lead="Fish that came together, without parents on record: all are saved, or none."
    >
      <FoundersForm lineId={lineId} onSaved={leave} onCancel={leave} />
    </Screen>
  );
}
