import './components/field-rules-setup.js';
import './look/look.js';
import { localStorageColorSchemeManager, MantineProvider } from '@mantine/core';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { RouterProvider } from 'react-router/dom';
import { Provider } from 'urql';
import { client } from './api/client.js';
import { router } from './frame/routes.js';
import { startServiceWorker } from './session/service-worker.js';
import { theme } from './look/theme.js';

startServiceWorker();

const colourScheme = localStorageColorSchemeManager({ key: 'linewright-colours' });

const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element with the id "root".');

createRoot(root).render(
  <StrictMode>
    <MantineProvider theme={theme} colorSchemeManager={colourScheme} defaultColorScheme="auto">
      <Provider value={client}>
        <RouterProvider router={router} />
      </Provider>
    </MantineProvider>
  </StrictMode>,
);
