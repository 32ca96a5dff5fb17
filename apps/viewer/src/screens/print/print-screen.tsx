import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { useSearchParams } from 'react-router';
import { PRINT_ADDRESS } from '../../api/print.js';
import type { Problem } from '../../api/problem.js';
import { useRead } from '../../api/use-read.js';
import { Caution, Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Loading } from '../../components/states.js';
import { ChoiceList } from './choice-list.js';
import { SheetFields } from './sheet-fields.js';
import { SheetPreview } from './sheet-preview.js';
import { type PrintKind, type SheetText, sheetFrom, sheetQuery, usualGrid } from './sheet-text.js';
import { usePrintables, type Printable, type Printables } from './use-printables.js';
import styles from './print.module.css';
import type { LabelSheet } from '@linewright/care';

const kinds: readonly { value: PrintKind; label: string }[] = [
  { value: 'jar-labels', label: 'jar labels' },
  { value: 'spawn-cards', label: 'spawn cards' },
  { value: 'line-cards', label: 'line cards' },
];

const record: Record<PrintKind, string> = {
  'jar-labels': 'fish',
  'spawn-cards': 'spawn',
  'line-cards': 'line',
};

const ownSheet: Omit<SheetText, 'grid'> = {
  page: 'A4',
  rows: '7',
  columns: '3',
  labelWidth: '64',
  labelHeight: '38',
  marginTop: '15',
  marginLeft: '7',
  gapX: '2',
  gapY: '0',
};

/** Servers and what stands before them cut longer addresses off. */
const LONGEST_QUERY = 6_000;

/** Tells whether the PDF was made; a refusal comes with its reason. */
async function fetchPdf(
  path: string,
  query: URLSearchParams,
  name: string,
): Promise<Problem | null> {
  const many = query.toString().length > LONGEST_QUERY;
  const response = await fetch(many ? path : `${path}?${query.toString()}`, {
    credentials: 'same-origin',
    ...(many && {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(Object.fromEntries(query)),
    }),
  }).catch(() => null);
  if (response?.ok === true) {
    const address = URL.createObjectURL(await response.blob());
    const link = document.createElement('a');
    link.href = address;
    link.download = `${name}.pdf`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
    return null;
  }
  const told = (await response?.json().catch(() => null)) as { message?: string } | null;
  return {
    code: 'PRINT',
    message:
      told?.message ??
      'Linewright does not answer. Check the connection and that it is running, then try again. What you chose is kept.',
    fields: [],
    reference: null,
  };
}

export function PrintScreen() {
  const [search, setSearch] = useSearchParams();
  const asked = search.get('what');
  const kind = kinds.find(({ value }) => value === asked)?.value ?? 'jar-labels';
  return (
    <Screen title="Labels and cards" lead="To print on label sheets or on plain paper to cut.">
      <NativeSelect
        label="What to print"
        style={{ maxWidth: 260 }}
        value={kind}
        onChange={(event) => {
          const value = event.currentTarget.value;
          setSearch(
            (before) => {
              const next = new URLSearchParams(before);
              next.set('what', value);
              return next;
            },
            { replace: true },
          );
        }}
        data={[...kinds]}
      />
      <PrintForm key={`${kind} ${search.toString()}`} kind={kind} search={search} />
    </Screen>
  );
}

function PrintForm({ kind, search }: { kind: PrintKind; search: URLSearchParams }) {
  const printables = usePrintables(kind, search);
  const named = kind === 'jar-labels' ? null : search.get(record[kind]);
  // Nothing chosen by hand yet: all that were asked for.
  const [chosen, setChosen] = useState<ReadonlySet<string> | null>(null);
  const [sheetText, setSheetText] = useState<SheetText>({ ...ownSheet, grid: usualGrid(kind) });
  const [start, setStart] = useState('1');
  const [address, setAddress] = useState('');
  const [problem, setProblem] = useState<Problem | null>(null);
  const [made, setMade] = useState(false);
  const usual = printables.list
    .filter(({ id }) => named === null || id === named)
    .map(({ id }) => id);
  const ids =
    chosen ?? new Set(kind === 'spawn-cards' && named === null ? usual.slice(0, 1) : usual);
  const picked = printables.list.filter(({ id }) => ids.has(id));
  const sheet = sheetFrom(sheetText, kind);
  const perPage = typeof sheet === 'string' ? 1 : sheet.rows * sheet.columns;
  const skip = Math.min(perPage - 1, Math.max(0, (Number(start) || 1) - 1));
  const print = async () => {
    const query = sheetQuery(sheetText, kind);
    query.set(record[kind], picked.map(({ id }) => id).join(','));
    query.set('start', String(skip + 1));
    if (address.trim() !== '') query.set('address', address.trim());
    setMade(false);
    const refused = await fetchPdf(`/export/print/${kind}.pdf`, query, kind);
    setProblem(refused);
    setMade(refused === null);
  };
  return (
    <div className={styles['print']}>
      <div>
        <WhichSection
          picked={picked}
          printables={printables}
          kind={kind}
          ids={ids}
          setChosen={setChosen}
        />
        <Section title="Address in the codes">
          <AddressField address={address} onChange={setAddress} />
        </Section>
      </div>
      <div>
        <SheetSection
          kind={kind}
          sheetText={sheetText}
          setSheetText={setSheetText}
          start={start}
          setStart={setStart}
          sheet={sheet}
          picked={picked}
          skip={skip}
          problem={problem}
          made={made}
          print={print}
        />
      </div>
    </div>
  );
}

const basisWord = {
  GIVEN: 'given here',
  SETTING: 'set on the server as PUBLIC_ADDRESS',
  REQUEST: 'the one in this browser’s address bar',
} as const;

function SheetSection({
  kind,
  sheetText,
  setSheetText,
  start,
  setStart,
  sheet,
  picked,
  skip,
  problem,
  made,
  print,
}: {
  kind: PrintKind;
  sheetText: SheetText;
  setSheetText: Dispatch<SetStateAction<SheetText>>;
  start: string;
  setStart: Dispatch<SetStateAction<string>>;
  sheet: string | LabelSheet;
  picked: Printable[];
  skip: number;
  problem: Problem | null;
  made: boolean;
  print: () => Promise<void>;
}) {
  return (
    <Section title="Sheet">
      <SheetFields kind={kind} text={sheetText} onChange={setSheetText} />
      <TextInput
        label="Start at place"
        description="Counted by rows from the top left; places before it stay blank."
        inputMode="numeric"
        style={{ maxWidth: 240, marginTop: 10 }}
        value={start}
        onChange={(event) => setStart(event.currentTarget.value)}
      />
      {typeof sheet === 'string' ? (
        <p className="lw-field-error" role="alert">
          {sheet}
        </p>
      ) : (
        <SheetPreview
          sheet={sheet}
          labels={picked.map(({ label }) => label)}
          skip={skip}
          onStart={(place) => setStart(String(place))}
        />
      )}
      <ProblemNotice problem={problem} />
      {made && <Done>The PDF is ready. Open the file and print it at actual size.</Done>}
      <div className="lw-form-buttons">
        <Button
          className="lw-primary"
          disabled={picked.length === 0 || typeof sheet === 'string'}
          onClick={() => void print()}
        >
          Make the PDF
        </Button>
      </div>
    </Section>
  );
}

function WhichSection({
  picked,
  printables,
  kind,
  ids,
  setChosen,
}: {
  picked: Printable[];
  printables: Printables;
  kind: PrintKind;
  ids: ReadonlySet<string>;
  setChosen: Dispatch<SetStateAction<ReadonlySet<string> | null>>;
}) {
  return (
    <Section title="Which" aside={`${picked.length} chosen`}>
      <ProblemNotice problem={printables.problem} />
      {printables.loading ? (
        <Loading />
      ) : (
        <ChoiceList
          what={record[kind]}
          list={printables.list}
          total={printables.total}
          chosen={ids}
          onChange={setChosen}
        />
      )}
    </Section>
  );
}

function AddressField({
  address,
  onChange,
}: {
  address: string;
  onChange: (address: string) => void;
}) {
  const told = useRead(PRINT_ADDRESS, {}).data?.printAddress;
  return (
    <>
      {told !== undefined && address.trim() === '' && (
        <>
          <p>
            Codes open <span className="lw-mono">{told.address}</span> ({basisWord[told.basis]}).
          </p>
          {!told.reachable && (
            <Caution>
              That address means “this machine” on every device, so a phone cannot open it. Give the
              address by which your phone reaches Linewright, or set PUBLIC_ADDRESS on the server.
            </Caution>
          )}
        </>
      )}
      {address.trim() !== '' && (
        <p>
          Codes open <span className="lw-mono">{address.trim()}</span> (given here).
        </p>
      )}
      <TextInput
        label="Another address"
        description="Such as http://192.168.1.20:4700. A phone asks for your sign-in when it opens a code."
        autoComplete="url"
        value={address}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
    </>
  );
}
