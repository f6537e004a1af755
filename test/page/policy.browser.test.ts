import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { executablePath, launchBrowser, openPage } from './openPage';

/** Ways to ask something of another place, each with the directive of the page's policy that must refuse it. */
const ways: Record<string, [directive: string, code: string]> = {
  fetch: ['connect-src', `fetch(address).catch(() => {})`],
  beacon: ['connect-src', `navigator.sendBeacon(address, 'x')`],
  socket: ['connect-src', `try { new WebSocket(address.replace('http', 'ws')) } catch {}`],
  events: ['connect-src', `new EventSource(address)`],
  picture: ['img-src', `new Image().src = address`],
  script: [
    'script-src-elem',
    `document.head.append(Object.assign(document.createElement('script'), { src: address }))`,
  ],
  style: [
    'style-src-elem',
    `document.head.append(Object.assign(document.createElement('link'), { rel: 'stylesheet', href: address }))`,
  ],
  frame: ['frame-src', `document.body.append(Object.assign(document.createElement('iframe'), { src: address }))`],
  form: [
    'form-action',
    `const form = Object.assign(document.createElement('form'), { action: address }); document.body.append(form); form.submit()`,
  ],
};

describe.skipIf(!executablePath)('the policy of the page', () => {
  let browser: Browser;
  let server: Server;
  const asked: string[] = [];

  beforeAll(async () => {
    browser = await launchBrowser();
    server = createServer((request, response) => {
      asked.push(request.url!);
      response.end();
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  test('whatever its script would ask of another place is refused, and nobody is asked', async () => {
    const { page } = await openPage(browser);
    const { port } = server.address() as AddressInfo;
    // that it could be asked: by a page without a policy
    const other = await browser.newPage();
    await other.goto(`http://127.0.0.1:${port}/seen`);
    await other.close();
    await page.evaluate(`{
      globalThis.refused = [];
      addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) =>
        refused.push(effectiveDirective + ' ' + blockedURI.replace(/^ws/, 'http')));
    }`);
    for (const [way, [directive, code]] of Object.entries(ways)) {
      const address = `http://127.0.0.1:${port}/${way}`;
      await page.evaluate(`{ const address = ${JSON.stringify(address)}; ${code} }`);
      await expect
        .poll(() => page.evaluate<string[]>('refused'), { message: way })
        .toContainEqual(expect.stringMatching(new RegExp(`^${directive} http://127\\.0\\.0\\.1:${port}`)));
      await page.evaluate('refused.length = 0');
    }
    // a worker of its own making, as the page has one, may ask no more than it
    const asks = `fetch('http://127.0.0.1:${port}/worker').then(() => postMessage('answered'), () => postMessage('refused'))`;
    const said = `new Promise((resolve) => {
      const worker = new Worker(URL.createObjectURL(new Blob([${JSON.stringify(asks)}])));
      worker.onmessage = ({ data }) => resolve(data);
    })`;
    expect(await page.evaluate(said)).toBe('refused');
    expect(asked.filter((url) => url !== '/favicon.ico')).toEqual(['/seen']);
    await page.context().close();
  }, 60_000);
});
