import { once } from 'node:events';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import type { CommandArguments } from './CommandArguments';
import { CommandError, wrongUsage } from './CommandError';
import { explain, sentenceOf } from './explain';
import { print } from './print';
import { writeWhole } from './writeWhole';

/** `datumline page --out FILE`, and `datumline page --serve`: the page on which the whole job is done without a command. */
export async function pageCommand({ files, out, serve }: CommandArguments): Promise<void> {
  if (files.length > 0) throw wrongUsage(`page takes no files, not "${files[0]}"`, 'page');
  if ((out === undefined) === (serve === 'no')) throw wrongUsage('page takes either --out FILE or --serve', 'page');
  // it lies beside what this is built into
  const place = fileURLToPath(new URL('./page.html', import.meta.url));
  const page = await readFile(place, 'utf8').catch((error: unknown) => {
    throw explain(error, place);
  });
  if (out !== undefined) {
    writeWhole(out, page);
    print(`written: ${out}\n`);
  } else await servePage(page);
}

/** Offers the page to this machine alone, until the process is ended. */
async function servePage(page: string): Promise<void> {
  const server = createServer(({ method, url }, answer) => {
    const known = url === '/' && (method === 'GET' || method === 'HEAD');
    answer.writeHead(known ? 200 : 404, { 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-store' });
    answer.end(known && method === 'GET' ? page : undefined);
  });
  server.listen(0, '127.0.0.1');
  try {
    await once(server, 'listening');
  } catch (error) {
    throw new CommandError(`the page can't be served: ${sentenceOf(error)}`, 1);
  }
  print(`http://127.0.0.1:${(server.address() as AddressInfo).port}/\nCtrl+C ends it.\n`);
  await once(server, 'close');
}
