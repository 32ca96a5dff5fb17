import {
  Button,
  Checkbox,
  createTheme,
  Modal,
  NativeSelect,
  PasswordInput,
  Textarea,
  TextInput,
  Select,
  type MantineColorsTuple,
} from '@mantine/core';

/** Placeholder shades: every colour on screen comes from tokens.css, which follows light and dark. */
const water: MantineColorsTuple = [
  '#e6f2f0',
  '#cfe5e2',
  '#a3ccc7',
  '#73b1aa',
  '#4d9a92',
  '#2f857d',
  '#17726b',
  '#0a5c57',
  '#084a46',
  '#053733',
];

const fieldClasses = {
  input: 'lw-input',
  label: 'lw-label',
  description: 'lw-hint',
  error: 'lw-field-error',
};

export const theme = createTheme({
  primaryColor: 'water',
  primaryShade: 7,
  colors: { water },
  autoContrast: false,
  defaultRadius: 2,
  fontFamily: 'var(--lw-font)',
  fontFamilyMonospace: 'var(--lw-mono)',
  headings: { fontFamily: 'var(--lw-font)' },
  // In rem: whoever asks the browser for larger letters gets them.
  fontSizes: {
    xs: '0.75rem',
    sm: '0.875rem',
    md: '0.9375rem',
    lg: '1.0625rem',
    xl: '1.25rem',
  },
  respectReducedMotion: true,
  cursorType: 'pointer',
  components: {
    Button: Button.extend({
      defaultProps: { variant: 'default', size: 'sm' },
      classNames: { root: 'lw-button', label: 'lw-button-label' },
    }),
    TextInput: TextInput.extend({ classNames: fieldClasses }),
    PasswordInput: PasswordInput.extend({
      classNames: fieldClasses,
    }),
    Textarea: Textarea.extend({
      classNames: fieldClasses,
      defaultProps: { autosize: true, minRows: 2 },
    }),
    NativeSelect: NativeSelect.extend({ classNames: fieldClasses }),
    Select: Select.extend({ classNames: fieldClasses }),
    // 24 px: the smallest that a finger is asked to hit.
    Checkbox: Checkbox.extend({ defaultProps: { size: 'md' } }),
    Modal: Modal.extend({
      defaultProps: { centered: true, size: 560, closeButtonProps: { 'aria-label': 'Close' } },
      classNames: {
        content: 'lw-sheet',
        header: 'lw-sheet-head',
        title: 'lw-sheet-title',
      },
    }),
  },
});
