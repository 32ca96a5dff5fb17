import { useFormContext, useWatch } from 'react-hook-form';
import type { Problem } from '../../api/problem.js';
import { TickField } from '../../components/fields.js';

/** Asked when a spawn of this pair and day is recorded already; stays once it was ticked. */
export function OtherBroodField({ problem }: { problem: Problem | null }) {
  const { control } = useFormContext<{ confirmed: boolean }>();
  const confirmed = useWatch({ control, name: 'confirmed' });
  const asked = problem?.fields.some(({ field }) => field === 'confirmed') === true;
  if (!asked && !confirmed) return null;
  return <TickField name="confirmed" label="This is another spawn: save it too" />;
}
