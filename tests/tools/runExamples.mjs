// Runs the examples that stand on standard input as JSON, in one process and on the built package under its own names, and prints what
// is wrong with each. A process of its own, because a test runner resolves names in its own way.
import { text } from 'node:stream/consumers';
import { readClaim } from './claims.mjs';

const AsyncFunction = (async () => {}).constructor;

/** What is wrong with an example; nothing where every claim holds. */
async function wrongIn({ imports, usesFixture, statements }) {
  const scope = {};
  for (const { from, words } of imports) {
    const entry = await import(from);
    for (const word of words) scope[word] = entry[word];
  }
  if (usesFixture) scope.sample = (await import('./exampleSample.mjs')).sample;
  const wrong = [];
  const claims = statements.filter(({ claim }) => claim !== '');
  if (claims.length === 0) return ['it claims nothing'];
  const check = (i, got) => {
    const difference = readClaim(statements[i].claim)(got);
    if (difference !== undefined) wrong.push(`${statements[i].code}: ${difference}`);
  };
  const checkThrown = async (i, action) => {
    try {
      await action();
      wrong.push(`${statements[i].code}: threw nothing`);
    } catch (error) {
      const difference = readClaim(`'${statements[i].claim.slice('throws '.length).replaceAll("'", "\\'")}'`)(
        error.message,
      );
      if (difference !== undefined) wrong.push(`${statements[i].code}: thrown ${difference}`);
    }
  };
  const body = statements.map(({ code, claim, value }, i) => {
    if (claim === '') return code;
    if (value === undefined) return `throw new Error('a claim behind what has no value');`;
    if (claim.startsWith('throws ')) return `await __checkThrown(${i}, async () => { await (${value}); });`;
    return code.startsWith('const ') ? `${code}\n__check(${i}, ${value});` : `__check(${i}, ${value});`;
  });
  try {
    const names = Object.keys(scope);
    const run = new AsyncFunction('__check', '__checkThrown', ...names, body.join('\n'));
    await run(check, checkThrown, ...Object.values(scope));
  } catch (error) {
    wrong.push(
      String(error.stack ?? error)
        .split('\n')
        .slice(0, 3)
        .join(' '),
    );
  }
  return wrong;
}

const examples = JSON.parse(await text(process.stdin));
const told = [];
for (const example of examples) told.push(await wrongIn(example));
process.stdout.write(JSON.stringify(told));
