import { clsx } from 'clsx';
import styles from './print.module.css';
import { NativeSelect, TextInput } from '@mantine/core';
import { FieldRow } from '../../components/record-form.js';
import { OWN, type PrintKind, type SheetText, gridWords, gridsFor } from './sheet-text.js';

const labels: readonly (readonly [keyof SheetText, string, string | null])[] = [
  ['columns', 'Labels across', null],
  ['rows', 'Labels down', null],
  ['labelWidth', 'Width of one', 'mm'],
  ['labelHeight', 'Height of one', 'mm'],
  ['marginLeft', 'Left margin', 'mm'],
  ['marginTop', 'Top margin', 'mm'],
  ['gapX', 'Gap across', 'mm'],
  ['gapY', 'Gap down', 'mm'],
];

interface SheetFieldsProps {
  kind: PrintKind;
  text: SheetText;
  onChange: (text: SheetText) => void;
}

/** A grid by its shape, or the measures from the pack of label sheets. */
export function SheetFields({ kind, text, onChange }: SheetFieldsProps) {
  return (
    <>
      <NativeSelect
        label="Grid"
        value={text.grid}
        onChange={(event) => onChange({ ...text, grid: event.currentTarget.value })}
        data={[
          ...gridsFor(kind).map(({ id, sheet }) => ({ value: id, label: gridWords(sheet) })),
          { value: OWN, label: 'measurements of my own sheets' },
        ]}
      />
      <OwnGrid text={text} onChange={onChange} />
    </>
  );
}

function OwnGrid({ text, onChange }: { text: SheetText; onChange: (text: SheetText) => void }) {
  return (
    text.grid === OWN && (
      <div className={clsx('lw-form', styles['part'])}>
        <NativeSelect
          label="Page"
          value={text.page}
          onChange={(event) => onChange({ ...text, page: event.currentTarget.value })}
          data={[
            { value: 'A4', label: 'A4, 210 by 297 mm' },
            { value: 'LETTER', label: 'Letter, 215.9 by 279.4 mm' },
          ]}
        />
        <FieldRow>
          {labels.map(([name, label, unit]) => (
            <TextInput
              key={name}
              label={label}
              inputMode="decimal"
              value={text[name]}
              onChange={(event) => onChange({ ...text, [name]: event.currentTarget.value })}
              {...(unit === null ? {} : { rightSection: <span className="lw-unit">{unit}</span> })}
            />
          ))}
        </FieldRow>
      </div>
    )
  );
}
