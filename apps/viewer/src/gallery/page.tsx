import '../components/field-rules-setup.js';
import '../look/look.js';
import { MantineProvider } from '@mantine/core';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { MemoryRouter } from 'react-router';
import { theme } from '../look/theme.js';
import { SessionContext } from '../session/session-context.js';
import { allParts } from './all-parts.js';
import { inventedSession } from './invented-records.js';
import styles from './page.module.css';

/** All components, or the one that the address names: `?show=DataTable`. */
function Page() {
  const shown = new URLSearchParams(location.search).get('show');
  return (
    <main className={styles['page']}>
      <h1>Components, with invented records</h1>
      <nav className={styles['names']} aria-label="Components">
        {Object.keys(allParts).map((name) => (
          <a key={name} href={`?show=${name}`}>
            {name}
          </a>
        ))}
        <a href="?">all</a>
      </nav>
      {Object.entries(allParts)
        .filter(([name]) => shown === null || name === shown)
        .map(([name, states]) => (
          <section key={name} className={styles['part']} data-part={name} aria-label={name}>
            <h2>{name}</h2>
            {Object.entries(states).map(([state, draw]) => (
              <div key={state} className={styles['state']} data-state={state}>
                <h3>{state}</h3>
                {draw()}
              </div>
            ))}
          </section>
        ))}
    </main>
  );
}

createRoot(document.querySelector('#root')!).render(
  <StrictMode>
    <MantineProvider theme={theme} defaultColorScheme="auto">
      <MemoryRouter>
        <SessionContext value={inventedSession}>
          <Page />
        </SessionContext>
      </MemoryRouter>
    </MantineProvider>
  </StrictMode>,
);
