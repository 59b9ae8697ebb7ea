import { createServer } from 'node:http';
import { expect, test } from 'vitest';
import { run } from '../src/cli/cli.js';
import { ran } from './support/command.js';

test.each(['80.5', '-1', '65536', 'http', '', '0x1F90.5'])(
  'a port of %j is none: bad usage, as every other option',
  async (port) => {
    const { code, out, error } = await ran('page', `--port=${port}`);
    expect([code, out]).toEqual([2, '']);
    expect(error).toMatch(/^--port: expected a (whole )?number from 0 to 65535, got "?[^"]*"?\n$/);
  },
);

test('a port that is a fraction is told to be whole, as it was given', async () => {
  expect(await ran('page', '--port', '80.5')).toEqual({
    code: 2,
    out: '',
    error: '--port: expected a whole number from 0 to 65535, got 80.5\n',
  });
});

test('a port that another program has', async () => {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as { readonly port: number };
  expect(await ran('page', '--port', `${port}`)).toEqual({
    code: 1,
    out: '',
    error: `port ${port}: cannot be served at: another program is there\n`,
  });
  server.close();
});

test('it is served until a person interrupts', async () => {
  let out = '';
  let interrupt = () => {};
  const code = run(['page', '--port', '0'], {
    out: (text) => {
      out += text;
    },
    error: () => {},
    isTerminal: false,
    onInterrupt: (action) => {
      interrupt = action;
      return () => {};
    },
  });
  await expect.poll(() => /http:\S+\//.exec(out)?.[0]).toBeDefined();
  const url = /http:\S+\//.exec(out)![0];
  expect(await (await fetch(url)).text()).toContain('windwardrobe');
  interrupt();
  expect(await code).toBe(0);
  await expect(fetch(url)).rejects.toThrow();
});
