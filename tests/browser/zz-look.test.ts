import { it } from 'vitest';
import { openBrowser, startServer } from './harness.js';
it('look', async () => {
  const [server, browser] = await Promise.all([startServer(), openBrowser()]);
  try {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    const page = await context.newPage();
    page.on('pageerror', (e) => console.log('ERR', e.message));
    page.on('console', (m) => m.type() === 'error' && console.log('CON', m.text()));
    await page.goto(server.url);
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
    await page.goto(`${server.url}/lines`);
    await page.getByRole('link', { name: /^Health of line/ }).first().waitFor();
    const hrefs = await page.getByRole('link', { name: /^Health of line/ }).evaluateAll((a) => a.map((x) => x.getAttribute('href')!));
    console.log(hrefs, await page.locator('table').innerText());
    const shoot = async (path: string, name: string) => {
      await page.goto(`${server.url}${path}`);
      await page.locator('h1').first().waitFor();
      await page.waitForLoadState('networkidle');
      await page.waitForTimeout(300);
      await page.evaluate(() => { for (const e of document.querySelectorAll<HTMLElement>('*')) { const s = getComputedStyle(e); if (e.scrollHeight > e.clientHeight + 200 && /auto|scroll/.test(s.overflowY) && e.clientHeight > 500) { e.style.height = 'auto'; e.style.overflow = 'visible'; } } });
      await page.screenshot({ path: `/tmp/shots-health/${name}.png`, fullPage: true });
      console.log(name, await page.evaluate(() => document.documentElement.scrollWidth));
    };
    const id = hrefs[0]!.split('/')[2]!;
    const fishId = await page.evaluate(async () => { const r = await fetch('/graphql', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ query: '{ fishList(filter: {inUse: true}, first: 100) { edges { node { id inbreedingCoefficient } } } }' }) }); const j = await r.json(); return j.data.fishList.edges.map((e: { node: unknown }) => e.node).sort((a: any, b: any) => b.inbreedingCoefficient - a.inbreedingCoefficient)[0].id; });
    for (const [scheme, width] of [['light', 1280], ['dark', 1280], ['light', 390], ['dark', 390]] as const) {
      await page.emulateMedia({ colorScheme: scheme });
      await page.setViewportSize({ width, height: 900 });
      await shoot(`/lines/${id}/health`, `health-${scheme}-${width}`);
      await shoot(`/lines/${id}/relationship`, `map-${scheme}-${width}`);
      await shoot(`/relationship`, `mapall-${scheme}-${width}`);
      await shoot(`/fish/${fishId}`, `fish-${scheme}-${width}`);
    }
  } finally { await browser.close(); await server.stop(); }
});
