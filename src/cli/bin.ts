#!/usr/bin/env node
import { run } from './cli.js';
import { EXIT } from './io.js';

// Who reads may have gone (a pager that was left), or the disk that is printed to may be full: no reason to show a stack.
process.stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
  if (code !== 'EPIPE') process.stderr.write(`what is printed cannot be written: ${code}\n`);
  process.exitCode = EXIT.failure;
  process.exit();
});
process.stderr.on('error', () => process.exit(EXIT.failure));

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  error: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  onInterrupt(action) {
    process.once('SIGINT', action);
    return () => process.off('SIGINT', action);
  },
});
