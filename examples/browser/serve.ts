import { readFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname } from 'node:path';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.json': 'application/json',
};

/** Serves the files named, by their path, to this machine only; any other path is not found. A port that is taken gives way to a free one. */
export async function serve(
  files: Readonly<Record<string, string>>,
  port = 0,
): Promise<{ server: Server; address: string }> {
  const server = createServer(async ({ url = '/' }, response) => {
    const path = url === '/' ? '/index.html' : url;
    if (!Object.hasOwn(files, path)) return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': types[extname(path)] ?? 'application/octet-stream' });
    response.end(await readFile(files[path]));
  });
  const listen = (at: number) =>
    new Promise<void>((resolve, reject) => {
      server.once('error', reject);
      server.listen(at, '127.0.0.1', resolve);
    });
  await listen(port).catch((error) => {
    if (error.code !== 'EADDRINUSE') throw error;
    return listen(0);
  });
  return { server, address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/` };
}
