// A web service around the library: POST a route in CSV to /plan?departure=…, and a plan comes back as JSON; faults as data.
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { text as textOf } from 'node:stream/consumers';
import { InputError, planPassage, readBoat, readForecast, readPolars, readRoute, totalsOf } from 'windwardrobe';

// Read once, used by every request: records are plain and are never written to.
const sample = (name) => readFile(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const boat = readBoat(await sample('boat.json'));
const polars = readPolars(await sample('polars.csv'), { boat });
const forecastCsv = await sample('forecast.csv');
const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [forecastCsv] });

/** What is longer is no route. */
const MOST_BYTES = 100_000;

/** The service as one function of a request, without a server: it runs wherever there are Request and Response. */
export async function handle(request) {
  const { pathname, searchParams } = new URL(request.url);
  if (pathname !== '/plan') return Response.json({ error: 'there is only /plan' }, { status: 404 });
  if (request.method !== 'POST') return Response.json({ error: 'POST a route' }, { status: 405 });
  try {
    const route = readRoute(await request.text(), 'the body');
    const passage = planPassage({ route, forecast, boat, polars }, { departure: searchParams.get('departure') ?? '' });
    const { arrival, sailChanges, sails } = totalsOf(passage, boat);
    const set = sails.filter(({ hours }) => hours > 0).map(({ id, hours }) => ({ id, hours: Math.round(hours) }));
    return Response.json({ complete: passage.complete, arrival, sailChanges, sails: set });
  } catch (error) {
    // What the caller sent is told the caller; anything else is the server's own, and its text stays here.
    if (error instanceof InputError) return Response.json({ faults: error.faults }, { status: 422 });
    return Response.json({ error: 'internal error' }, { status: 500 });
  }
}

/** The same behind Node's own server. Planning holds the thread for a second or so: a busy service plans in worker threads. */
async function answer(incoming, outgoing) {
  const { method, url, headers } = incoming;
  // Refused before it is read: by its length, or because it does not tell it.
  if ('transfer-encoding' in headers || Number(headers['content-length'] ?? 0) > MOST_BYTES) {
    outgoing.writeHead(413, { connection: 'close' }).end();
    return;
  }
  const body = method === 'POST' ? await textOf(incoming) : undefined;
  const response = await handle(new Request(new URL(url, `http://${headers.host}`), { method, body }));
  outgoing.writeHead(response.status, Object.fromEntries(response.headers)).end(await response.text());
}

const server = createServer((incoming, outgoing) => answer(incoming, outgoing).catch(() => outgoing.destroy()));
await new Promise((listening) => server.listen(0, '127.0.0.1', listening));
const service = `http://127.0.0.1:${server.address().port}/plan?departure=2027-01-12T06:00Z`;

const good = 'name,lat,lon\nCape Verde,16.9,-25.0\nBarbados,13.1,-59.6\n';
for (const body of [good, good.replace('13.1', '131')]) {
  const response = await fetch(service, { method: 'POST', body });
  console.log(response.status, await response.text());
}
server.closeAllConnections();
server.close();
