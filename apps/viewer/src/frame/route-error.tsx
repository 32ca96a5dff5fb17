import { Button } from '@mantine/core';
import { isRouteErrorResponse, Link, useRouteError } from 'react-router';

/** Shown in place of a screen that failed to draw, or an address that leads nowhere. */
export function RouteError() {
  const error = useRouteError();
  const missing = isRouteErrorResponse(error) && error.status === 404;
  const detail = error instanceof Error ? error.message : null;
  return (
    <main className="lw-alone">
      <title>{missing ? 'No such page · Linewright' : 'Something failed · Linewright'}</title>
      <h1>{missing ? 'No such page' : 'This screen failed'}</h1>
      <div className="lw-notice lw-notice-problem" role="alert">
        <p>
          {missing
            ? `There is no page at ${window.location.pathname}. Check the address for a typing mistake.`
            : 'The fault is in Linewright, not in your records; nothing was saved or lost. Load the page again; if it fails again, report the line below.'}
        </p>
        {detail !== null && <p className="lw-mono">{detail}</p>}
      </div>
      <div className="lw-form-buttons">
        {!missing && <Button onClick={() => window.location.reload()}>Load again</Button>}
        <Link to="/fish">Go to the fish</Link>
      </div>
    </main>
  );
}
