import { useMantineColorScheme, type MantineColorScheme } from '@mantine/core';
import styles from './frame.module.css';

const words: Record<MantineColorScheme, string> = {
  auto: 'same as device',
  light: 'light',
  dark: 'dark',
};

/** Light, dark or as the device says; kept on this device. */
export function ColourSchemeChoice() {
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  return (
    <label className={styles['scheme']}>
      <span>Colours</span>
      <select
        value={colorScheme}
        onChange={(event) => setColorScheme(event.currentTarget.value as MantineColorScheme)}
      >
        {(['auto', 'light', 'dark'] as const).map((scheme) => (
          <option key={scheme} value={scheme}>
            {words[scheme]}
          </option>
        ))}
      </select>
    </label>
  );
}
