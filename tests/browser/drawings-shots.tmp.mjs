import { createServer } from 'vite';
import { chromium } from 'playwright-core';
const only = process.argv[2]?.split(',');
const variants = process.argv[3]?.split(',') ?? ['light-desk'];
const server = await createServer({ root: '/work/main/apps/viewer', configFile: '/work/main/apps/viewer/vite.config.ts', cacheDir: '/tmp/drawings-vite', server: { port: 0, host: '127.0.0.1' }, logLevel: 'error' });
await server.listen();
const url = server.resolvedUrls.local[0] + 'gallery.html';
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox','--disable-gpu','--disable-quic','--no-first-run','--disable-background-networking','--disable-component-update','--disable-sync'] });
for (const v of variants) {
  const [scheme, size] = v.split('-');
  const context = await browser.newContext({ colorScheme: scheme, viewport: size === 'desk' ? { width: 1280, height: 800 } : { width: 390, height: 844 }, deviceScaleFactor: size==='desk'?1:2, hasTouch: size!=='desk' });
  const page = await context.newPage();
  page.on('console', (m) => { if (m.type() === 'error') console.log(v, m.text()); });
  page.on('pageerror', (e) => console.log('ERR', e.message));
  for (const name of only) {
    await page.goto(url + '?show=' + name);
    await page.waitForSelector('.lw-drawing');
    await page.waitForTimeout(400);
    const wide = await page.evaluate(() => [...document.querySelectorAll('*')].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest('.lw-map-scroll,.lw-stage,.lw-table-scroll')).map(e => e.tagName + '.' + e.getAttribute('class') + ' ' + Math.round(e.getBoundingClientRect().right)).slice(0,5)); if (wide.length) console.log(name, v, JSON.stringify(wide), await page.evaluate(() => innerWidth)); await page.screenshot({ path: `/tmp/shots/${name}-${v}.png` });
  }
  await context.close();
}
await browser.close(); await server.close();
