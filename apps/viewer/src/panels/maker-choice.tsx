import { NativeSelect } from '@mantine/core';
import { ASSIGN_PAIRING, PAIR_MAKERS } from '../api/pairings.js';
import { useRead } from '../api/use-read.js';
import { useSave } from '../api/use-save.js';
import { ProblemNotice } from '../components/notice.js';
import { useMayChange } from '../session/may.js';

interface MakerChoiceProps {
  lineId: string;
  pairing: {
    readonly id: string;
    readonly revision: number;
    readonly maker: { readonly id: string; readonly name: string } | null;
  };
  /** "T-1 by T-2", read out with the choice. */
  pair: string;
}

/** Who makes a planned pair: chosen by whoever keeps the line, and read by others. */
export function MakerChoice({ lineId, pairing: { id, revision, maker }, pair }: MakerChoiceProps) {
  const mayChange = useMayChange();
  const read = useRead(PAIR_MAKERS, { lineId }, { pause: !mayChange });
  const { save, saving, problem } = useSave(ASSIGN_PAIRING);
  if (!mayChange) return <>{maker?.name ?? 'nobody named'}</>;
  const known = read.data?.pairMakers ?? [];
  const all =
    maker === null || known.some((one) => one.id === maker.id) ? known : [...known, maker];
  return (
    <>
      <NativeSelect
        aria-label={`Who makes ${pair}`}
        size="xs"
        disabled={saving}
        value={maker?.id ?? ''}
        data={[
          { value: '', label: 'nobody named' },
          ...all.map((one) => ({ value: one.id, label: one.name })),
        ]}
        onChange={(event) => {
          const personId = event.currentTarget.value || null;
          void save({ input: { pairingId: id, personId, revision } });
        }}
      />
      <ProblemNotice problem={problem} />
    </>
  );
}
