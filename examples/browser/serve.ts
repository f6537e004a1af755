import { readFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { extname } from 'node:path';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.json': 'application/json',
};

/** Serves the files named, by their path, to this machine only; any other path is not found. */
export function serve(files: Readonly<Record<string, string>>, port = 0): Promise<{ server: Server; address: string }> {
  const server = createServer(async ({ url = '/' }, response) => {
    const path = url === '/' ? '/index.html' : url;
    if (!Object.hasOwn(files, path)) return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': types[extname(path)] ?? 'application/octet-stream' });
    response.end(await readFile(files[path]));
  });
  return new Promise((resolve) => {
    server.listen(port, '127.0.0.1', () => {
      const address = server.address();
      const used = typeof address === 'object' && address !== null ? address.port : port;
      resolve({ server, address: `http://127.0.0.1:${used}/` });
    });
  });
}
