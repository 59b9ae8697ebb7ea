#!/usr/bin/env node
import { run } from './cli.js';

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  error: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  onInterrupt(action) {
    process.once('SIGINT', action);
    return () => process.off('SIGINT', action);
  },
});
