import { clsx } from 'clsx';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { Link, useSearchParams } from 'react-router';
import { PRINT_ADDRESS } from '../../api/print.js';
import { useRead } from '../../api/use-read.js';
import { Caution, Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Loading } from '../../components/states.js';
import { ChoiceList } from './choice-list.js';
import { SheetFields } from './sheet-fields.js';
import { SheetPreview } from './sheet-preview.js';
import type { PrintKind } from './sheet-text.js';
import { record, usePrint, type Print } from './use-print.js';
import styles from './print.module.css';

const kinds: readonly { value: PrintKind; label: string }[] = [
  { value: 'jar-labels', label: 'jar labels' },
  { value: 'vessel-labels', label: 'labels of vessels, whoever is in them' },
  { value: 'spawn-cards', label: 'spawn cards' },
  { value: 'line-cards', label: 'line cards' },
];

export function PrintScreen() {
  const [search, setSearch] = useSearchParams();
  const asked = search.get('what');
  const kind = kinds.find(({ value }) => value === asked)?.value ?? 'jar-labels';
  return (
    <Screen title="Labels and cards" lead="To print on label sheets or on plain paper to cut.">
      <NativeSelect
        label="What to print"
        className="lw-narrow-field"
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

interface PrintFormProps {
  kind: PrintKind;
  search: URLSearchParams;
}

function PrintForm({ kind, search }: PrintFormProps) {
  const print = usePrint(kind, search);
  return (
    <div className={styles['print']}>
      <div>
        <WhichSection kind={kind} which={print.which} />
        <Section title="Address in the codes">
          <AddressField address={print.address} onChange={print.setAddress} />
        </Section>
      </div>
      <div>
        <SheetSection kind={kind} print={print} />
      </div>
    </div>
  );
}

const basisWord = {
  GIVEN: 'given here',
  SETTING: 'set on the server as PUBLIC_ADDRESS',
  HOME: 'the one for phones, from the page “Phone”',
  REQUEST: 'the one in this browser’s address bar',
} as const;

interface SheetSectionProps {
  kind: PrintKind;
  print: Print;
}

function SheetSection({ kind, print }: SheetSectionProps) {
  const { which, sheet, problem, made } = print;
  return (
    <Section title="Sheet">
      <SheetFields kind={kind} text={sheet.text} onChange={sheet.setText} />
      <StartField print={print} />
      {typeof sheet.sheet === 'string' ? (
        <p className="lw-field-error" role="alert">
          {sheet.sheet}
        </p>
      ) : (
        <SheetPreview
          sheet={sheet.sheet}
          labels={which.picked.map(({ label }) => label)}
          skip={sheet.skip}
          onStart={(place) => sheet.setStart(String(place))}
        />
      )}
      <ProblemNotice problem={problem} />
      {made && <Done>The PDF is ready. Open the file and print it at actual size.</Done>}
      <div className="lw-form-buttons">
        <Button
          className="lw-primary"
          disabled={which.picked.length === 0 || typeof sheet.sheet === 'string'}
          onClick={() => void print.print()}
        >
          Make the PDF
        </Button>
      </div>
    </Section>
  );
}

function StartField({ print: { sheet } }: { print: Print }) {
  return (
    <TextInput
      label="Start at place"
      description="Counted by rows from the top left; places before it stay blank."
      inputMode="numeric"
      className={clsx('lw-narrow-field', styles['part'])}
      value={sheet.start}
      onChange={(event) => sheet.setStart(event.currentTarget.value)}
    />
  );
}

interface WhichSectionProps {
  kind: PrintKind;
  which: Print['which'];
}

function WhichSection({ kind, which: { printables, ids, setChosen, picked } }: WhichSectionProps) {
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

interface AddressFieldProps {
  address: string;
  onChange: (address: string) => void;
}

function AddressField({ address, onChange }: AddressFieldProps) {
  return (
    <>
      {address.trim() === '' ? (
        <AddressTold />
      ) : (
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

/** The address that the server goes by as long as none is given. */
function AddressTold() {
  const told = useRead(PRINT_ADDRESS, {}).data?.printAddress;
  if (told === undefined) return null;
  return (
    <>
      <p>
        Codes open <span className="lw-mono">{told.address}</span> ({basisWord[told.basis]}).
      </p>
      {!told.reachable && (
        <Caution>
          That address means “this machine” on every device, so a phone cannot open it. Open
          Linewright to phones on the page <Link to="/phone">Phone</Link>, or give the address by
          which your phone reaches it.
        </Caution>
      )}
    </>
  );
}
