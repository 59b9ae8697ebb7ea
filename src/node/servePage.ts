import { readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { extname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { InputError } from '../errors.js';
import { says } from '../wording.js';
import { fileProblem } from './files.js';

const FOLDER = fileURLToPath(new URL('../../dist/static', import.meta.url));

const TYPES: Readonly<Record<string, string>> = {
  '.css': 'text/css; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
};

/** A page that is served, where, and how that ends. */
export interface ServedPage {
  readonly url: string;
  close(): Promise<void>;
}

/**
 * Serves the page on this machine alone; a port of 0 is any that is free. Only the files of the page are given out.
 * @throws InputError where the page was not built
 *
 * @example
 * const page = await servePage(0);
 * (await fetch(page.url)).status // 200
 * await page.close();
 */
export function servePage(port: number): Promise<ServedPage> {
  return serveFolder(FOLDER, port);
}

/** The same of a folder that may be another. */
export async function serveFolder(folder: string, port: number): Promise<ServedPage> {
  const names = new Map(namesIn(folder).map((name) => [`/${name.split(sep).join('/')}`, name]));
  if (!names.has(INDEX)) throw new InputError([{ file: folder, ...says.pageNotBuilt() }]);
  const server = createServer((request, response) => {
    // Taken as text: what is asked for may be no address at all.
    const [pathname = '/'] = (request.url ?? '/').split('?', 1);
    const name = names.get(pathname === '/' ? INDEX : pathname);
    const type = name === undefined ? undefined : TYPES[extname(name)];
    if (name === undefined || type === undefined || (request.method !== 'GET' && request.method !== 'HEAD')) {
      response.writeHead(404).end();
      return;
    }
    readFile(join(folder, name)).then(
      (bytes) => response.writeHead(200, { 'content-type': type, 'x-content-type-options': 'nosniff' }).end(bytes),
      () => response.writeHead(500).end(),
    );
  });
  await listening(server, port);
  const address = server.address();
  const open = typeof address === 'object' && address !== null ? address.port : port;
  return {
    url: `http://127.0.0.1:${open}/`,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

const INDEX = '/index.html';

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder, { recursive: true }) as string[];
  } catch (error) {
    if (fileProblem(error) === undefined) throw error;
    return [];
  }
}

const listening = (server: Server, port: number) =>
  new Promise<void>((done, failed) => {
    server.once('error', failed);
    server.listen(port, '127.0.0.1', done);
  });
